import { defineConfig } from 'vitest/config';

/** The whole program in a real browser, one file after another: two at once would compete for the decoder. */
export default defineConfig({
  root: new URL('../..', import.meta.url).pathname,
  test: {
    include: ['tests/e2e/**/*.test.ts'],
    testTimeout: 60_000,
    hookTimeout: 90_000,
    pool: 'forks',
    fileParallelism: false,
    // The tests of a file are one sitting: what comes after a failed step would only fail for its sake.
    bail: 0,
  },
});
