import { defineConfig } from 'vitest/config';

/** The long runs of the scoring core: `npm run soak:core`. */
export default defineConfig({
  root: new URL('../..', import.meta.url).pathname,
  test: { include: ['tests/soak/*.test.ts'], testTimeout: 1_800_000, pool: 'forks' },
});
