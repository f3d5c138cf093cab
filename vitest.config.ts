import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    setupFiles: ['tests/seed.ts'],
    // No test is timed: the limits only end what hangs, on however slow and busy a machine.
    testTimeout: 240_000,
    hookTimeout: 240_000,
    expect: { poll: { timeout: 60_000 } },
    // Nothing here keeps a state of its own, so that test files can share what has been loaded.
    isolate: false,
    maxWorkers: 3,
  },
});
