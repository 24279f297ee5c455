/** Starting the desktop shell in a test: Electron is a stand-in, all else is real (host, study, loopback server). */
import { mkdtempSync, realpathSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, vi } from 'vitest';
import { openHost, type Host } from '../../src/host/door.ts';
import { standIn, StandInWindow, type StandIn } from './stand-in.ts';

const patience = 10_000;

/** A host without a window on a folder, as another program would open one. */
export function bareHost(folder: string): Host {
  return openHost({
    uiFolder: null,
    filmFolders: [],
    browseRoots: [folder],
    preferencesPath: join(folder, 'bare.json'),
    programVersion: '0.0.0',
    native: {},
    log: () => undefined,
  });
}

/** A place for one desktop shell at a time: a folder for its files, the stand-in it was started with, what it said. */
export class Desktop {
  readonly folder = realpathSync(mkdtempSync(join(tmpdir(), 'creasebook-desktop-')));
  electron: StandIn = standIn();
  said: string[] = [];
  readonly #argv = process.argv;

  async makeStudy(name: string): Promise<string> {
    const path = join(this.folder, name);
    const host = bareHost(this.folder);
    await host.call('study.create', { path, evaluatorName: 'Dana Quill' });
    await host.close();
    return path;
  }

  /** Loads the shell as far as it comes before Electron is ready. */
  async load(args: readonly string[], as: Parameters<typeof standIn>[0] = {}): Promise<void> {
    vi.resetModules();
    vi.stubEnv('CREASEBOOK_DATA', join(this.folder, 'data'));
    vi.spyOn(console, 'log').mockImplementation((line: unknown) => this.said.push(String(line)));
    this.said = [];
    this.electron = standIn(as);
    process.argv = ['/electron', '/program', ...args];
    vi.doMock('electron', () => this.electron.module);
    await import('../../electron/main.ts');
  }

  async start(args: readonly string[], as: Parameters<typeof standIn>[0] = {}): Promise<void> {
    await this.load(args, as);
    await this.becomeReady();
  }

  async becomeReady(): Promise<void> {
    this.electron.ready();
    await vi.waitFor(() => expect(this.said.join('\n')).toContain('Creasebook ready: '), patience);
  }

  async quit(): Promise<void> {
    this.electron.app.quit();
    await vi.waitFor(() => expect(this.electron.order.filter((step) => step === 'quit')).toHaveLength(2), patience);
  }

  /** Ends what is still running and takes every trace away. */
  async clear(): Promise<void> {
    const { order } = this.electron;
    if (order.includes('ready') && !order.includes('quit')) await this.quit();
    process.argv = this.#argv;
    process.removeAllListeners('SIGINT');
    process.removeAllListeners('SIGTERM');
    vi.unstubAllEnvs();
    vi.restoreAllMocks();
    vi.doUnmock('electron');
    rmSync(this.folder, { recursive: true, force: true });
  }

  get window(): StandInWindow {
    const [window] = StandInWindow.all;
    if (window === undefined) throw new Error('there is no window');
    return window;
  }

  /** Asks the door as Electron would for the window's page; initiatorOrigin is what Electron saw asking. */
  async ask(path: string, init: RequestInit & { initiatorOrigin?: string | null } = {}): Promise<Response> {
    const handler = this.electron.handlers.get('creasebook');
    if (handler === undefined) throw new Error('nothing answers creasebook:');
    const { initiatorOrigin, ...rest } = init;
    const request = new Request(`creasebook://window${path}`, rest);
    if (initiatorOrigin !== undefined) Object.defineProperty(request, 'initiatorOrigin', { value: initiatorOrigin });
    return handler(request);
  }

  async call(name: string, input: unknown): Promise<unknown> {
    return (await this.ask(`/call/${name}`, { method: 'POST', body: JSON.stringify(input) })).json();
  }

  /** Waits until the study at a path is the one that is open. */
  async opened(path: string): Promise<void> {
    const wanted = { value: { path } };
    await vi.waitFor(async () => expect(await this.call('study.info', {})).toMatchObject(wanted), patience);
  }
}
