import type { BrowserWindow, BrowserWindowConstructorOptions, Session, WebContents, WebPreferences } from 'electron';

/** A page with no way out of its sandbox: no preload, no Node, nothing shared with it but the door. */
export const pagePreferences: WebPreferences = {
  sandbox: true,
  contextIsolation: true,
  nodeIntegration: false,
  nodeIntegrationInWorker: false,
  nodeIntegrationInSubFrames: false,
  webSecurity: true,
  allowRunningInsecureContent: false,
  experimentalFeatures: false,
  webviewTag: false,
  navigateOnDragDrop: false,
  disableDialogs: true,
  // Its dictionaries would be fetched from elsewhere.
  spellcheck: false,
};

/** What a page may have from the system without being asked. All else is refused, and nobody is asked. */
const allowed: ReadonlySet<string> = new Set(['fullscreen', 'clipboard-sanitized-write']);

/** Refuses permissions, devices and screens to every page of a session, but for going full screen and copying. */
export function refusePermissions(session: Session): void {
  session.setPermissionRequestHandler((_contents, permission, answer) => answer(allowed.has(permission)));
  session.setPermissionCheckHandler((_contents, permission) => allowed.has(permission));
  session.setDevicePermissionHandler(() => false);
  session.setDisplayMediaRequestHandler((_request, answer) => answer({}));
}

/** Stops every request of a session that is not for its own origin: nothing leaves the machine, whoever asks. */
export function refuseNetwork(session: Session, origin: string): void {
  const own = [`${origin}/`, `blob:${origin}/`, 'data:', 'devtools:'];
  session.webRequest.onBeforeRequest(({ url }, answer) => {
    answer({ cancel: !own.some((start) => url.startsWith(start)) });
  });
}

/** True for the address of a dossier that was issued: the one kind of page that opens outside the window, as a saved file. */
function isIssuedFile(address: string, origin: string): boolean {
  return address.startsWith(`${origin}/issued/`) && /\/dossier\.(?:pdf|html)$/.test(address);
}

/** Keeps a page where it is: no other site, no other window, no page in the page. */
export function refuseToLeave(contents: WebContents, origin: string): void {
  const stay = (event: { readonly url: string; preventDefault(): void }): void => {
    if (!event.url.startsWith(`${origin}/`)) event.preventDefault();
  };
  contents.on('will-navigate', stay);
  contents.on('will-frame-navigate', stay);
  contents.on('will-redirect', stay);
  contents.on('will-attach-webview', (event) => event.preventDefault());
  contents.setWindowOpenHandler(({ url }) => {
    if (isIssuedFile(url, origin)) contents.downloadURL(url);
    return { action: 'deny' };
  });
}

/** The one window, not yet shown; it shows itself when its first page is drawn. */
export function makeWindow(
  Window: new (options: BrowserWindowConstructorOptions) => BrowserWindow,
  bounds: Partial<{ x: number; y: number; width: number; height: number }>,
): BrowserWindow {
  const window = new Window({
    width: 1440,
    height: 900,
    ...bounds,
    minWidth: 960,
    minHeight: 600,
    show: false,
    title: 'Creasebook',
    backgroundColor: '#14171a',
    autoHideMenuBar: false,
    webPreferences: pagePreferences,
  });
  window.once('ready-to-show', () => window.show());
  return window;
}
