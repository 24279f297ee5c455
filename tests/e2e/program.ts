import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const main = join(import.meta.dirname, '../../build/src/loopback/main.js');
const window = join(import.meta.dirname, '../../dist/ui/index.html');

/** A running program: where its window is, what it printed, and how to end it as Ctrl-C does. */
export type Program = {
  readonly address: string;
  readonly printed: () => string;
  readonly stop: () => Promise<number | null>;
};

/** A folder of its own for one file of tests: the study, the films, and `data`, where the program keeps its own files. */
export type Desk = { readonly folder: string; readonly data: string; readonly clear: () => void };

/** Makes an empty desk. */
export function makeDesk(): Desk {
  const folder = mkdtempSync(join(tmpdir(), 'creasebook-e2e-'));
  return {
    folder,
    data: join(folder, 'data'),
    clear: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** Runs the built program to its end and gives what it printed; for starts that are refused. */
export function startRefused(desk: Desk, args: readonly string[]): Promise<{ code: number | null; printed: string }> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [main, '--no-open', '--port', '0', ...args], {
      env: { ...process.env, CREASEBOOK_DATA: desk.data },
    });
    let printed = '';
    child.stdout.on('data', (chunk: Buffer) => (printed += chunk.toString()));
    child.stderr.on('data', (chunk: Buffer) => (printed += chunk.toString()));
    child.on('exit', (code) => resolve({ code, printed }));
  });
}

/** Starts the built program on a desk and waits for its ready line. Rejects with what it printed when it ends before. */
export async function startProgram(desk: Desk, args: readonly string[]): Promise<Program> {
  for (const built of [main, window])
    if (!existsSync(built)) throw new Error(`${built} is not there: build first (npm run build).`);
  const child = spawn(process.execPath, [main, '--no-open', '--port', '0', '--folder', desk.folder, ...args], {
    env: { ...process.env, CREASEBOOK_DATA: desk.data },
  });
  let printed = '';
  const ended = new Promise<number | null>((resolve) => child.on('exit', (code) => resolve(code)));
  const address = await new Promise<string>((resolve, reject) => {
    const hear = (chunk: Buffer): void => {
      printed += chunk.toString();
      const ready = /Creasebook ready: (\S+)/.exec(printed);
      if (ready?.[1] !== undefined) resolve(ready[1]);
    };
    child.stdout.on('data', hear);
    child.stderr.on('data', hear);
    void ended.then((code) => reject(new Error(`The program ended with ${code} before it was ready: ${printed}`)));
  });
  return {
    address,
    printed: () => printed,
    async stop() {
      child.kill('SIGINT');
      return ended;
    },
  };
}
