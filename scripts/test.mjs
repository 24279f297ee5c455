/**
 * `npm test`: everything CI runs, from a fresh clone. Set-up, the checks, the build, the tests of the parts, then the
 * whole program in a real browser. The last line is the sum of all.
 */
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { check } from './check.mjs';
import { setUpBuild } from './set-up-build.mjs';
import { setUp } from './set-up.mjs';
import { commandFile, project, run } from './set-up-run.mjs';
import { Trouble } from './set-up-trouble.mjs';
import { countReport, inWords, sumOf } from './test-counts.mjs';

const reports = join(project, 'build', 'test-results');

/**
 * @param {{ node: string, env: NodeJS.ProcessEnv, name: string, config: string }} tests
 * @returns {Promise<import('./test-counts.mjs').Counts>}
 */
async function runTests({ node, env, name, config }) {
  console.log(`\n== ${name} ==`);
  const file = join(reports, `${name}.json`);
  rmSync(file, { force: true });
  const { code } = await run(
    node,
    [
      commandFile('vitest', 'vitest'),
      'run',
      '-c',
      config,
      '--reporter=default',
      `--reporter=${join(project, 'scripts', 'skips-reporter.mjs')}`,
      '--reporter=json',
      `--outputFile.json=${file}`,
    ],
    { show: true, env },
  );
  const counts = countReport(existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : null, code);
  console.log(`${name}: ${inWords(counts)}`);
  return counts;
}

/** @param {string} name @param {() => Promise<void>} work @returns {Promise<import('./test-counts.mjs').Counts>} */
async function step(name, work) {
  try {
    await work();
    return { passed: 1, failed: 0, skipped: 0 };
  } catch (cause) {
    if (!(cause instanceof Trouble)) throw cause;
    console.log(`${name} FAILED: ${cause.message}\n${cause.next}`);
    return { passed: 0, failed: 1, skipped: 0 };
  }
}

async function all() {
  /** @type {import('./test-counts.mjs').Counts[]} */
  const counts = [];
  /** @type {Awaited<ReturnType<typeof setUp>> | undefined} */
  let ready;
  counts.push(
    await step('set-up', async () => {
      ready = await setUp({ programs: ['chromium', 'ffmpeg', 'pdftotext'] });
    }),
  );
  if (ready === undefined) return sumOf(counts);
  const { node, env } = ready;
  mkdirSync(reports, { recursive: true });
  console.log('\n== check ==');
  counts.push({ ...(await check(node)), skipped: 0 });
  const built = await step('build', () => setUpBuild(node));
  counts.push(built);
  counts.push(await runTests({ node, env, name: 'unit', config: 'tests/vitest.config.ts' }));
  const e2e = 'tests/e2e/vitest.config.ts';
  if (existsSync(join(project, e2e))) counts.push(await runTests({ node, env, name: 'e2e', config: e2e }));
  return sumOf(counts);
}

const sum = await all();
console.log(`\n${inWords(sum)}`);
process.exitCode = sum.failed === 0 && sum.passed > 0 ? 0 : 1;
