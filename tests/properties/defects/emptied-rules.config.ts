import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: { include: ['tests/**/*.test.ts'], setupFiles: ['tests/support/empty-rule.ts'], testTimeout: 120_000 },
});
