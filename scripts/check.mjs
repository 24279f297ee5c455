/** `npm run check`: what CI does before the tests. Each step counts as one. */
import { pathToFileURL } from 'node:url';
import { setUp } from './set-up.mjs';
import { commandFile, run } from './set-up-run.mjs';
import { runCommand } from './set-up-trouble.mjs';

/** @type {readonly { name: string, package: string, command: string, args: readonly string[] }[]} */
const steps = [
  { name: 'format', package: 'oxfmt', command: 'oxfmt', args: ['--check'] },
  { name: 'lint', package: 'oxlint', command: 'oxlint', args: ['--deny-warnings'] },
  { name: 'types', package: 'typescript', command: 'tsc', args: ['-b'] },
  {
    name: 'layers',
    package: 'dependency-cruiser',
    command: 'depcruise',
    args: ['src', 'electron', '--config', '.dependency-cruiser.cjs'],
  },
];

/**
 * Runs every step, also after one that failed, and prints what the failed ones said.
 * @param {string} node the project's Node
 * @returns {Promise<{ passed: number, failed: number }>}
 */
export async function check(node) {
  let failed = 0;
  for (const step of steps) {
    const began = performance.now();
    const { code, output } = await run(node, [commandFile(step.package, step.command), ...step.args]);
    const seconds = ((performance.now() - began) / 1000).toFixed(1);
    console.log(`check: ${step.name} ${code === 0 ? 'passed' : 'FAILED'} (${seconds} s)`);
    if (code === 0) continue;
    failed += 1;
    console.log(output.trim().split('\n').slice(-200).join('\n'));
  }
  return { passed: steps.length - failed, failed };
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  await runCommand(async () => {
    const { node } = await setUp({});
    const { failed } = await check(node);
    return failed === 0 ? 0 : 1;
  });
}
