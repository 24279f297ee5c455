import type { BrowserWindow, BrowserWindowConstructorOptions, Dialog, Session, Shell } from 'electron';
import { faultOf, FaultError } from '../src/contract/faults.ts';
import type { Native } from '../src/host/native.ts';
import { pagePreferences, refusePermissions, refuseToLeave } from './window.ts';

type Wanted = Parameters<NonNullable<Native['pickFiles']>>[0]['want'];

const filters: Readonly<Record<Wanted, readonly { readonly name: string; readonly extensions: string[] }[]>> = {
  film: [{ name: 'Film', extensions: ['mp4', 'm4v', 'mov', 'webm', 'mkv', 'ts', 'mts', 'm2ts'] }],
  study: [{ name: 'Creasebook study', extensions: ['creasebook'] }],
  any: [],
};

const printAddress = 'creasebook://paper/dossier.html';

/** What of Electron the native abilities use. */
export type NativeParts = {
  readonly dialog: Pick<Dialog, 'showOpenDialog'>;
  readonly shell: Pick<Shell, 'showItemInFolder'>;
  readonly Window: new (options: BrowserWindowConstructorOptions) => BrowserWindow;
  /** A session of its own for each print, in memory only. */
  readonly freshSession: () => Session;
};

/**
 * Prints one HTML file in a hidden window that runs no script and reaches nothing but that file.
 * Rejects with a FaultError 'no-printer' when Chromium can't print it.
 */
async function printPdf(
  { Window, freshSession }: NativeParts,
  html: string,
  paper: 'A4' | 'Letter',
): Promise<Uint8Array> {
  const session = freshSession();
  refusePermissions(session);
  session.webRequest.onBeforeRequest(({ url }, answer) => {
    answer({ cancel: url !== printAddress && !url.startsWith('data:') });
  });
  session.protocol.handle('creasebook', (request) =>
    request.url === printAddress
      ? new Response(html, { headers: { 'content-type': 'text/html; charset=utf-8' } })
      : new Response(null, { status: 404 }),
  );
  const window = new Window({ show: false, webPreferences: { ...pagePreferences, javascript: false, session } });
  try {
    refuseToLeave(window.webContents, 'creasebook://paper');
    await window.loadURL(printAddress);
    return await window.webContents.printToPDF({
      pageSize: paper,
      preferCSSPageSize: true,
      printBackground: true,
      generateTaggedPDF: true,
      generateDocumentOutline: true,
    });
  } catch (cause) {
    const why = cause instanceof Error ? cause.message : String(cause);
    throw new FaultError(
      faultOf('no-printer', `The dossier could not be printed: ${why}.`, 'The HTML is kept; print it from a browser.'),
    );
  } finally {
    window.destroy();
  }
}

/** What the desktop shell can do for the host: the system's dialogs, printing, the file manager. */
export function desktopNative(parts: NativeParts): Required<Native> {
  return {
    printPdf: (html, paper) => printPdf(parts, html, paper),
    async pickFiles({ want, many }) {
      const { canceled, filePaths } = await parts.dialog.showOpenDialog({
        properties: ['openFile', ...(many ? (['multiSelections'] as const) : [])],
        filters: filters[want].map(({ name, extensions }) => ({ name, extensions: [...extensions] })),
      });
      return canceled ? [] : filePaths;
    },
    revealInFolder: (path) => parts.shell.showItemInFolder(path),
  };
}
