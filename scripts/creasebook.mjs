/** `npm run creasebook -- dossier ...`: the commands from a clone; an installed program has them as `creasebook`. */
import { join } from 'node:path';
import { setUp } from './set-up.mjs';
import { project, run } from './set-up-run.mjs';
import { runCommand } from './set-up-trouble.mjs';

await runCommand(async () => {
  const { node, env } = await setUp({ build: true, programs: ['chromium'] });
  const main = join(project, 'build', 'src', 'cli', 'main.js');
  // npm runs scripts in the project's folder; the paths a person gives are from where the person stands.
  const cwd = process.env['INIT_CWD'] ?? process.cwd();
  return (await run(node, [main, ...process.argv.slice(2)], { show: true, env, cwd })).code;
});
