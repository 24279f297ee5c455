/** `npm start` without Electron: the door on 127.0.0.1, opened as an app window in an installed browser where there is one. */
import { join } from 'node:path';
import { chromiumPrinter, findChromium, openAppWindow } from '../host/exports/chromium.ts';
import { programFolder, startShell } from '../host/shell-start.ts';
import { serveLoopback } from './serve.ts';
import { startArguments } from './start-arguments.ts';

function giveUp(says: string, code: number): never {
  console.error(says);
  process.exit(code);
}

const asked = startArguments(process.argv.slice(2));
if (typeof asked === 'string') giveUp(asked, 2);

const chromium = findChromium(process.env);
const { host, data, opened } = await startShell({
  program: programFolder(import.meta.url),
  study: asked.study,
  folders: asked.folders,
  env: process.env,
  native: chromium === null ? {} : { printPdf: chromiumPrinter(chromium) },
  log: (line) => console.error(line),
});

if (opened !== null && 'fault' in opened) {
  console.error(`${opened.says} ${opened.next}`);
  if (asked.study !== null) {
    await host.close();
    process.exit(1);
  }
} else if (opened !== null && opened.readOnlyBecause !== null) {
  console.log(`The study is open for reading only. ${opened.readOnlyBecause}`);
}

const served = await serveLoopback(host, asked.port).catch(async (cause: unknown) => {
  await host.close();
  const why = cause instanceof Error ? cause.message : String(cause);
  return giveUp(`Port ${asked.port} can't be used: ${why}. Choose another with --port, or leave it out.`, 1);
});

let ending = false;
const end = async (): Promise<void> => {
  if (ending) return;
  ending = true;
  await served.close();
  await host.close();
  process.exit(0);
};
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => void end());

if (asked.open && chromium !== null) openAppWindow(chromium, served.address, join(data, 'browser'));
console.log(`Creasebook ready: ${served.address}`);
