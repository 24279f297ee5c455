/** `npm start` without Electron: the door on 127.0.0.1, opened as an app window in an installed browser where there is one. */
import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { FaultError } from '../contract/faults.ts';
import { openHost } from '../host/door.ts';
import { chromiumPrinter, findChromium, openAppWindow } from '../host/exports/chromium.ts';
import { demoCopy, writableDataFolder } from '../host/places.ts';
import { serveLoopback } from './serve.ts';

// From build/src/loopback up to the project's folder.
const project = resolve(dirname(fileURLToPath(import.meta.url)), '..', '..', '..');
const { values } = parseArgs({
  options: {
    study: { type: 'string' },
    port: { type: 'string', default: '0' },
    folder: { type: 'string', multiple: true, default: [] },
    'no-open': { type: 'boolean', default: false },
  },
});

function portOf(text: string): number {
  const port = Number(text);
  if (Number.isInteger(port) && port >= 0 && port <= 65_535) return port;
  console.error(`--port takes a whole number from 0 to 65535, got ${text}.`);
  process.exit(2);
}

const data = writableDataFolder(process.env);
const demo = join(project, 'demo', 'demo.creasebook');
const study = values.study === undefined ? (existsSync(demo) ? demoCopy(demo, data) : null) : resolve(values.study);
const packageJson = JSON.parse(readFileSync(join(project, 'package.json'), 'utf8')) as { version: string };
mkdirSync(data, { recursive: true });
const chromium = findChromium(process.env);

const host = openHost({
  uiFolder: join(project, 'dist', 'ui'),
  filmFolders: [join(project, 'demo', 'films')],
  browseRoots: [
    homedir(),
    project,
    data,
    ...(study === null ? [] : [dirname(study)]),
    ...values.folder.map((folder) => resolve(folder)),
  ],
  preferencesPath: join(data, 'preferences.json'),
  programVersion: packageJson.version,
  native: chromium === null ? {} : { printPdf: chromiumPrinter(chromium) },
  log: (line) => console.error(line),
});

if (study !== null) {
  try {
    const info = await host.call('study.open', { path: study });
    if (info.readOnlyBecause !== null) console.log(`The study is open for reading only. ${info.readOnlyBecause}`);
  } catch (cause) {
    if (!(cause instanceof FaultError)) throw cause;
    console.error(`${cause.fault.says} ${cause.fault.next}`);
    if (values.study !== undefined) {
      await host.close();
      process.exit(1);
    }
  }
}

const served = await serveLoopback(host, portOf(values.port)).catch(async (cause: unknown) => {
  console.error(
    `Port ${values.port} can't be used: ${cause instanceof Error ? cause.message : String(cause)}. Choose another with --port.`,
  );
  await host.close();
  process.exit(1);
});
let ending = false;
const end = async (): Promise<void> => {
  if (ending) return;
  ending = true;
  await served.close();
  await host.close();
  process.exit(0);
};
process.on('SIGINT', () => void end());
process.on('SIGTERM', () => void end());

if (!values['no-open'] && chromium !== null) openAppWindow(chromium, served.address, join(data, 'browser'));
console.log(`Creasebook ready: ${served.address}`);
