import { defineConfig } from 'vitest/config';

/** No test is timed: the limits only end what hangs, on however slow and busy a machine. */
export default defineConfig({
  test: { testTimeout: 240_000, hookTimeout: 240_000 },
});
