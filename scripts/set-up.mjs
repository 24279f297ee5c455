/**
 * From a fresh clone to what a command needs, with Node 20 and npm and nothing else. `node scripts/set-up.mjs` makes the
 * program ready to start (`npm run build`); the other commands call setUp with what they need.
 */
import { pathToFileURL } from 'node:url';
import { setUpBuild } from './set-up-build.mjs';
import { projectNode, setUpPackages } from './set-up-packages.mjs';
import { setUpPrograms } from './set-up-programs.mjs';
import { runCommand } from './set-up-trouble.mjs';

/**
 * Installs and finds what is asked for. Throws Trouble with a sentence when something needed can't be had.
 * @param {{ build?: boolean, programs?: readonly import('./set-up-programs.mjs').Program[] }} needs
 * @returns {Promise<{ node: string, env: NodeJS.ProcessEnv, programs: Awaited<ReturnType<typeof setUpPrograms>> }>}
 *   the project's Node, the programs found, and an environment that names them to what is started next
 */
export async function setUp({ build = false, programs = [] }) {
  await setUpPackages();
  const node = await projectNode();
  if (build) await setUpBuild(node);
  const found = await setUpPrograms(programs);
  const env = { ...process.env, ...(found.chromium === null ? {} : { CHROMIUM: found.chromium }) };
  return { node, env, programs: found };
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  await runCommand(async () => {
    await setUp({ build: true });
    return 0;
  });
}
