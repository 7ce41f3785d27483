import { availableParallelism } from 'node:os';
import { configDefaults, defineConfig } from 'vitest/config';

/** A module is replaced before anything has loaded it: in a worker of its own. */
const replacingModules = ['tests/domain/rules/subjects.test.ts'];

export default defineConfig({
  test: {
    // The tests compute and hardly wait: one worker a core.
    maxWorkers: Math.max(2, availableParallelism()),
    projects: [
      {
        extends: true,
        test: {
          name: 'together',
          include: ['tests/**/*.test.ts'],
          exclude: [...configDefaults.exclude, 'tests/editor/**', ...replacingModules],
          // No test changes what another one reads, so a worker loads each module once.
          isolate: false,
        },
      },
      { extends: true, test: { name: 'alone', include: replacingModules, isolate: true } },
    ],
    setupFiles: ['tests/support/one-seed.ts'],
    // Only against a test that hangs: a busy machine must not fail one that works.
    testTimeout: 240_000,
  },
});
