/** `npm run bench`: every benchmark there is, one after another, so that none disturbs another. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { project, run } from './set-up-run.mjs';
import { setUp } from './set-up.mjs';
import { runCommand } from './set-up-trouble.mjs';

await runCommand(async () => {
  const { node, env } = await setUp({ build: true, programs: ['chromium', 'ffmpeg'] });
  let worst = 0;
  for (const name of readdirSync(join(project, 'scripts'))
    .filter((file) => /^bench-.*\.ts$/.test(file))
    .sort()) {
    console.log(`\n== ${name} ==`);
    const { code } = await run(node, [join(project, 'scripts', name), ...process.argv.slice(2)], { show: true, env });
    worst = Math.max(worst, code);
  }
  return worst;
});
