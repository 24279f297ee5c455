import { execFileSync } from 'node:child_process';
import { join } from 'node:path';

const project = join(import.meta.dirname, '..', '..');

/** Compiles the commands from what stands in src (nothing to do when that is built already); gives the built program. */
export function buildCli(): string {
  const compiler = join(project, 'node_modules', 'typescript', 'bin', 'tsc');
  execFileSync(process.execPath, [compiler, '-b', 'src/cli'], { cwd: project, stdio: 'pipe' });
  return join(project, 'build', 'src', 'cli', 'main.js');
}
