/** The desktop window: the host in this process, its door behind the window's own scheme. */
import { join } from 'node:path';
import { app, BrowserWindow, dialog, Menu, protocol, screen, session, shell } from 'electron';
import { FaultError } from '../src/contract/faults.ts';
import type { Host } from '../src/host/door.ts';
import { programFolder, startShell } from '../src/host/shell-start.ts';
import { serveLoopback, type Served } from '../src/loopback/serve.ts';
import { menuTemplate } from './menu.ts';
import { desktopNative } from './native.ts';
import { registerScheme, serveScheme, windowAddress, windowOrigin } from './scheme.ts';
import { desktopArguments } from './start-arguments.ts';
import { keepPlace, readPlace } from './window-place.ts';
import { makeWindow, refuseNetwork, refusePermissions, refuseToLeave } from './window.ts';

const asked = desktopArguments(process.argv.slice(1), process.cwd());

let host: Host | null = null;
let served: Served | null = null;
let window: BrowserWindow | null = null;
// macOS names a file that was opened with this program before the host is there.
let waitingStudy = asked.study;
let prints = 0;

const native = desktopNative({
  dialog,
  shell,
  Window: BrowserWindow,
  freshSession: () => session.fromPartition(`paper-${(prints += 1)}`),
});

async function openStudy(path: string): Promise<void> {
  if (host === null) {
    waitingStudy = path;
    return;
  }
  try {
    // Every window hears of it through the door's events and reads anew.
    await host.call('study.open', { path });
  } catch (cause) {
    if (!(cause instanceof FaultError)) throw cause;
    dialog.showErrorBox(cause.fault.says, cause.fault.next);
  }
}

async function chooseStudy(): Promise<void> {
  const [path] = await native.pickFiles({ want: 'study', many: false });
  if (path !== undefined) await openStudy(path);
}

function showWindow(address: string, origin: string, placeFile: string): void {
  refusePermissions(session.defaultSession);
  refuseNetwork(session.defaultSession, origin);
  const screens = screen.getAllDisplays().map(({ workArea }) => workArea);
  const opened = makeWindow(BrowserWindow, readPlace(placeFile, screens) ?? {});
  window = opened;
  refuseToLeave(opened.webContents, origin);
  opened.on('close', () => keepPlace(placeFile, opened.getNormalBounds()));
  opened.on('closed', () => {
    window = null;
  });
  void opened.loadURL(address);
}

async function start(): Promise<void> {
  const started = await startShell({
    program: programFolder(import.meta.url),
    study: waitingStudy,
    folders: asked.folders,
    env: process.env,
    native,
    log: (line) => console.error(line),
  });
  ({ host } = started);
  serveScheme(protocol, (request) => started.host.door(request));
  if (asked.loopback) served = await serveLoopback(started.host, 0);
  const address = served?.address ?? windowAddress;
  const open = (): void => {
    showWindow(address, served === null ? windowOrigin : new URL(address).origin, join(started.data, 'window.json'));
  };
  const openItem = { label: '&Open study…', accelerator: 'CmdOrCtrl+O', run: () => void chooseStudy() };
  Menu.setApplicationMenu(Menu.buildFromTemplate(menuTemplate([openItem], process.platform)));
  open();
  app.on('activate', () => {
    if (window === null) open();
  });
  if (started.opened !== null && 'fault' in started.opened) {
    dialog.showErrorBox(started.opened.says, started.opened.next);
  }
  console.log(`Creasebook ready: ${address}`);
}

let ended = false;
async function end(): Promise<void> {
  await served?.close();
  await host?.close();
  ended = true;
  app.quit();
}

registerScheme(protocol);
app.enableSandbox();
if (app.requestSingleInstanceLock()) {
  app.on('second-instance', (_event, argv, cwd) => {
    const { study } = desktopArguments(argv.slice(1), cwd);
    if (study !== null) void openStudy(study);
    if (window?.isMinimized() === true) window.restore();
    window?.focus();
  });
  app.on('open-file', (event, path) => {
    event.preventDefault();
    void openStudy(path);
  });
  // Whatever page there should ever be, it has the same walls as ours.
  app.on('web-contents-created', (_event, contents) => {
    contents.on('will-attach-webview', (event) => event.preventDefault());
    contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  });
  app.on('window-all-closed', () => {
    if (process.platform !== 'darwin') app.quit();
  });
  app.on('before-quit', (event) => {
    if (ended) return;
    event.preventDefault();
    void end();
  });
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => app.quit());
  app
    .whenReady()
    .then(start)
    .catch((cause: unknown) => {
      console.error(cause);
      app.exit(1);
    });
} else {
  console.log('Creasebook is open already; it was brought to the front.');
  app.quit();
}
