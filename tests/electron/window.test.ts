/** The door behind the scheme and the walls around the window, of one desktop shell that is running. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Desktop } from './desktop.ts';
import { StandInWindow } from './stand-in.ts';

const desktop = new Desktop();
beforeAll(() => desktop.start([]));
afterAll(() => desktop.clear());

describe('the door behind the scheme', () => {
  test('answers calls with what the contract says, and bad ones with a fault', async () => {
    expect(await desktop.call('preferences.write', { set: { theme: 'light' } })).toEqual({ ok: true, value: {} });
    expect(await desktop.call('preferences.read', {})).toEqual({ ok: true, value: { theme: 'light' } });
    expect(await desktop.call('preferences.read', { more: 1 })).toMatchObject({
      ok: false,
      fault: { fault: 'bad-input' },
    });
  });

  test.each([
    ['another origin in the request', { headers: { origin: 'https://example.org' } }],
    ['a page elsewhere that Electron saw asking', { initiatorOrigin: 'https://example.org' }],
    ['a page of no origin', { initiatorOrigin: null }],
  ])('refuses %s', async (_what, init) => {
    expect((await desktop.ask('/call/study.info', { method: 'POST', body: '{}', ...init })).status).toBe(403);
  });

  test('answers the window itself', async () => {
    const init = { initiatorOrigin: 'creasebook://window', headers: { origin: 'creasebook://window' } };
    expect((await desktop.ask('/call/study.info', { method: 'POST', body: '{}', ...init })).status).toBe(200);
  });

  test('refuses another host of the same scheme', async () => {
    const handler = desktop.electron.handlers.get('creasebook');
    expect((await handler?.(new Request('creasebook://paper/dossier.html')))?.status).toBe(403);
  });
});

describe('the window', () => {
  test('is sandboxed, isolated, and has no preload and no Node', async () => {
    const { webPreferences } = desktop.window.options;
    expect(webPreferences).toMatchObject({
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      allowRunningInsecureContent: false,
      webviewTag: false,
      navigateOnDragDrop: false,
    });
    expect(webPreferences).not.toHaveProperty('preload');
    expect(desktop.window.options.show).toBe(false);
    desktop.window.emit('ready-to-show');
    expect(desktop.window.calls).toContain('show');
  });

  test.each(['will-navigate', 'will-frame-navigate', 'will-redirect'])('stays where it is on %s', async (event) => {
    const prevented = (url: string): boolean => {
      let stopped = false;
      desktop.window.webContents.emit(event, { url, preventDefault: () => (stopped = true) });
      return stopped;
    };
    expect(prevented('https://example.org/')).toBe(true);
    expect(prevented('file:///etc/passwd')).toBe(true);
    expect(prevented('creasebook://window.example/')).toBe(true);
    expect(prevented('creasebook://window/')).toBe(false);
  });

  test('opens no other window; an issued dossier is saved as a file instead', async () => {
    const { webContents } = desktop.window;
    expect(webContents.opener?.({ url: 'https://example.org/' })).toEqual({ action: 'deny' });
    expect(webContents.downloads).toEqual([]);
    expect(webContents.opener?.({ url: 'creasebook://window/issued/abc/dossier.pdf' })).toEqual({ action: 'deny' });
    expect(webContents.downloads).toEqual(['creasebook://window/issued/abc/dossier.pdf']);
  });

  test('takes in no webview, in this page or any other', async () => {
    let stopped = 0;
    desktop.window.webContents.emit('will-attach-webview', { preventDefault: () => (stopped += 1) });
    const other = new StandInWindow({});
    desktop.electron.app.emit('web-contents-created', {}, other.webContents);
    other.webContents.emit('will-attach-webview', { preventDefault: () => (stopped += 1) });
    expect(stopped).toBe(2);
    expect(other.webContents.opener?.({ url: 'https://example.org/' })).toEqual({ action: 'deny' });
  });

  test('gets no permission, device or screen, but full screen and copying', async () => {
    const { defaultSession } = desktop.electron;
    const asked = (permission: string): boolean => {
      let verdict = true;
      defaultSession.permissionRequest?.(null, permission, (allowed) => (verdict = allowed));
      expect(defaultSession.permissionCheck?.(null, permission)).toBe(verdict);
      return verdict;
    };
    for (const permission of [
      'media',
      'geolocation',
      'notifications',
      'midi',
      'openExternal',
      'clipboard-read',
      'fileSystem',
      'hid',
    ]) {
      expect(asked(permission)).toBe(false);
    }
    expect(asked('fullscreen')).toBe(true);
    expect(asked('clipboard-sanitized-write')).toBe(true);
    expect(defaultSession.device?.()).toBe(false);
    const given: object[] = [];
    defaultSession.screens?.(null, (streams) => given.push(streams));
    expect(given).toEqual([{}]);
  });

  test('asks nothing of the network', async () => {
    const { defaultSession } = desktop.electron;
    expect(defaultSession.cancels('https://example.org/x.js')).toBe(true);
    expect(defaultSession.cancels('http://127.0.0.1:8080/')).toBe(true);
    expect(defaultSession.cancels('file:///etc/passwd')).toBe(true);
    expect(defaultSession.cancels('creasebook://window/film/1')).toBe(false);
    expect(defaultSession.cancels('blob:creasebook://window/1-2')).toBe(false);
  });
});
