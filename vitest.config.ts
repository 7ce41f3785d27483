import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/editor/**', 'node_modules/**'],
    setupFiles: ['tests/support/one-seed.ts'],
    // Only against a test that hangs: a busy machine must not fail one that works.
    testTimeout: 240_000,
    // No test changes what another one reads, so a worker loads each module once.
    isolate: false,
    // The tests compute and hardly wait: one worker a core.
    maxWorkers: Math.max(2, availableParallelism()),
  },
});
