/**
 * `npm run package`: installable programs for this system in dist/packages, by electron-builder. It fetches Electron's
 * binary, so it needs a network. Arguments after `--` are electron-builder's (`--linux deb --x64`, `--dir`).
 */
import { commandFile, run } from './set-up-run.mjs';
import { setUp } from './set-up.mjs';
import { runCommand, Trouble } from './set-up-trouble.mjs';

await runCommand(async () => {
  const { node, env } = await setUp({ build: true });
  const builder = commandFile('electron-builder', 'electron-builder');
  const args = [builder, '--config', 'electron/packaging.json', '--publish', 'never', ...process.argv.slice(2)];
  const { code, output } = await run(node, args, { env });
  console.log(output.replaceAll(/^\s+at .*\n?/gm, '').trimEnd());
  if (code === 0) return 0;
  if (/ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ETIMEDOUT|fetch failed|getaddrinfo/.test(output)) {
    throw new Trouble(
      "The packages could not be made: Electron's binary or a packaging tool could not be fetched.",
      'Run it on a machine with a network.',
    );
  }
  return code;
});
