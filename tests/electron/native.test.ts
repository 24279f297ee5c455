/** Printing and dialogs of the desktop shell, with a stand-in for Electron's parts. */
import { afterEach, expect, test, vi } from 'vitest';
import type { NativeParts } from '../../electron/native.ts';
import { desktopNative } from '../../electron/native.ts';
import { FaultError } from '../../src/contract/faults.ts';
import { standIn, StandInSession, StandInWindow } from './stand-in.ts';

afterEach(() => vi.restoreAllMocks());

function parts(picks: string[] = []): {
  native: ReturnType<typeof desktopNative>;
  sessions: StandInSession[];
  revealed: string[];
} {
  const { module, revealed } = standIn({ picks });
  const sessions: StandInSession[] = [];
  const given = {
    dialog: module.dialog,
    shell: module.shell,
    Window: StandInWindow,
    freshSession: () => {
      const made = new StandInSession();
      sessions.push(made);
      return made;
    },
  };
  return { native: desktopNative(given as unknown as NativeParts), sessions, revealed };
}

test('a dossier is printed tagged, with an outline, on the paper asked for, by a hidden page without scripts', async () => {
  const { native, sessions } = parts();
  const pdf = await native.printPdf('<h1>Dossier</h1>', 'Letter');
  expect(Buffer.from(pdf).toString('latin1')).toMatch(/^%PDF-/);
  const [window] = StandInWindow.all;
  expect(window?.options).toMatchObject({
    show: false,
    webPreferences: { javascript: false, sandbox: true, contextIsolation: true, nodeIntegration: false },
  });
  expect(window?.options.webPreferences).not.toHaveProperty('preload');
  expect(window?.webContents.printed).toEqual([
    {
      pageSize: 'Letter',
      preferCSSPageSize: true,
      printBackground: true,
      generateTaggedPDF: true,
      generateDocumentOutline: true,
    },
  ]);
  expect(window?.calls).toEqual(['destroy']);
  const [session] = sessions;
  expect(session?.cancels('https://example.org/pixel.png')).toBe(true);
  expect(session?.cancels('file:///etc/passwd')).toBe(true);
  expect(session?.cancels(window?.loaded ?? '')).toBe(false);
  const answer = await session?.handlers.get('creasebook')?.(new Request(window?.loaded ?? ''));
  expect(await answer?.text()).toBe('<h1>Dossier</h1>');
  expect((await session?.handlers.get('creasebook')?.(new Request('creasebook://paper/other')))?.status).toBe(404);
});

test('each print has a session of its own, so that none sees what another left', async () => {
  const { native, sessions } = parts();
  await Promise.all([native.printPdf('one', 'A4'), native.printPdf('two', 'A4')]);
  expect(new Set(sessions).size).toBe(2);
});

test('a page that can not be printed comes back as a fault, and its window is gone', async () => {
  const { native } = parts();
  StandInWindow.failNextLoad = new Error('ERR_FAILED (-2)');
  const failure: unknown = await native.printPdf('x', 'A4').catch((cause: unknown) => cause);
  expect(failure).toBeInstanceOf(FaultError);
  expect(failure).toMatchObject({
    fault: { fault: 'no-printer', says: 'The dossier could not be printed: ERR_FAILED (-2).' },
  });
  expect(StandInWindow.all[0]?.calls).toEqual(['destroy']);
});

test('a dialog put away gives no file, one answered gives its files', async () => {
  expect(await parts([]).native.pickFiles({ want: 'film', many: true })).toEqual([]);
  expect(await parts(['/a.mp4', '/b.mp4']).native.pickFiles({ want: 'film', many: true })).toEqual([
    '/a.mp4',
    '/b.mp4',
  ]);
});

test('a file is shown in its folder', () => {
  const { native, revealed } = parts();
  native.revealInFolder('/films/a.mp4');
  expect(revealed).toEqual(['/films/a.mp4']);
});
