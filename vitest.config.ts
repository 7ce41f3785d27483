import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/editor/**', 'node_modules/**'],
    setupFiles: ['tests/support/one-seed.ts'],
    testTimeout: 60_000,
    // No test changes what another one reads, so a worker loads each module once.
    isolate: false,
    // The tests compute and hardly wait: one worker a core.
    maxWorkers: Math.max(2, availableParallelism()),
  },
});
