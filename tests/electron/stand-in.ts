/** A stand-in for Electron's module: it notes what the shell asks of Electron, in order, and lets a test play Electron's part. */
import { EventEmitter } from 'node:events';

type Answer = (allowed: boolean) => void;
type Handler = (request: Request) => Response | Promise<Response>;
type PageOptions = { show?: boolean; webPreferences?: Record<string, unknown> & { session?: StandInSession } };

export class StandInSession {
  readonly handlers = new Map<string, Handler>();
  permissionRequest: ((contents: null, permission: string, answer: Answer) => void) | null = null;
  permissionCheck: ((contents: null, permission: string) => boolean) | null = null;
  device: (() => boolean) | null = null;
  screens: ((request: null, answer: (streams: object) => void) => void) | null = null;
  beforeRequest: ((details: { url: string }, answer: (verdict: { cancel: boolean }) => void) => void) | null = null;
  readonly webRequest = {
    onBeforeRequest: (listener: typeof this.beforeRequest): void => {
      this.beforeRequest = listener;
    },
  };
  readonly protocol = { handle: (scheme: string, handler: Handler): unknown => this.handlers.set(scheme, handler) };
  setPermissionRequestHandler(handler: typeof this.permissionRequest): void {
    this.permissionRequest = handler;
  }
  setPermissionCheckHandler(handler: typeof this.permissionCheck): void {
    this.permissionCheck = handler;
  }
  setDevicePermissionHandler(handler: typeof this.device): void {
    this.device = handler;
  }
  setDisplayMediaRequestHandler(handler: typeof this.screens): void {
    this.screens = handler;
  }
  cancels(url: string): boolean {
    let verdict = false;
    this.beforeRequest?.({ url }, ({ cancel }) => (verdict = cancel));
    return verdict;
  }
}

class StandInContents extends EventEmitter {
  opener: ((details: { url: string }) => { action: string }) | null = null;
  readonly downloads: string[] = [];
  readonly printed: unknown[] = [];
  setWindowOpenHandler(handler: typeof this.opener): void {
    this.opener = handler;
  }
  downloadURL(url: string): void {
    this.downloads.push(url);
  }
  async printToPDF(options: unknown): Promise<Buffer> {
    this.printed.push(options);
    return Buffer.from('%PDF-1.7 stand-in');
  }
}

export class StandInWindow extends EventEmitter {
  static all: StandInWindow[] = [];
  /** Makes the next loading of a page fail, as Chromium does for one it can't show. */
  static failNextLoad: Error | null = null;
  readonly webContents = new StandInContents();
  readonly calls: string[] = [];
  readonly options: PageOptions;
  loaded: string | null = null;
  constructor(options: PageOptions) {
    super();
    this.options = options;
    StandInWindow.all.push(this);
  }
  async loadURL(address: string): Promise<void> {
    this.loaded = address;
    const failure = StandInWindow.failNextLoad;
    StandInWindow.failNextLoad = null;
    if (failure !== null) throw failure;
  }
  getNormalBounds(): { x: number; y: number; width: number; height: number } {
    return { x: 40, y: 50, width: 1200, height: 800 };
  }
  isMinimized(): boolean {
    return true;
  }
  show = (): unknown => this.calls.push('show');
  restore = (): unknown => this.calls.push('restore');
  focus = (): unknown => this.calls.push('focus');
  destroy = (): unknown => this.calls.push('destroy');
}

type MenuItem = { label?: string; role?: string; submenu?: MenuItem[]; click?: () => void };

/** A fresh Electron: `module` for the shell, the rest for the test. `first` is false for a second start of the program. */
export function standIn({ first = true, picks = [] as string[] } = {}) {
  StandInWindow.all = [];
  StandInWindow.failNextLoad = null;
  const order: string[] = [];
  const privileged: unknown[] = [];
  const handlers = new Map<string, Handler>();
  const errors: { title: string; words: string }[] = [];
  const revealed: string[] = [];
  const sessions = new Map<string, StandInSession>();
  const defaultSession = new StandInSession();
  const menu: { items: MenuItem[] } = { items: [] };
  const readiness = Promise.withResolvers<void>();
  const app = Object.assign(new EventEmitter(), {
    isPackaged: false,
    enableSandbox: () => order.push('sandbox'),
    requestSingleInstanceLock: () => first,
    whenReady: () => readiness.promise,
    quit: () => {
      order.push('quit');
      app.emit('before-quit', { preventDefault: () => order.push('quit put off') });
    },
    exit: (code: number) => order.push(`exit ${code}`),
  });
  const module = {
    app,
    BrowserWindow: StandInWindow,
    dialog: {
      showOpenDialog: async () => ({ canceled: picks.length === 0, filePaths: picks }),
      showErrorBox: (title: string, words: string) => errors.push({ title, words }),
    },
    Menu: {
      buildFromTemplate: (items: MenuItem[]) => items,
      setApplicationMenu: (items: MenuItem[]) => (menu.items = items),
    },
    protocol: {
      registerSchemesAsPrivileged: (schemes: unknown[]) => {
        order.push('scheme');
        privileged.push(...schemes);
      },
      handle: (scheme: string, handler: Handler) => {
        order.push('handle');
        handlers.set(scheme, handler);
      },
    },
    screen: { getAllDisplays: () => [{ workArea: { x: 0, y: 0, width: 1920, height: 1080 } }] },
    session: {
      defaultSession,
      fromPartition: (name: string) => {
        const made = sessions.get(name) ?? new StandInSession();
        sessions.set(name, made);
        return made;
      },
    },
    shell: { showItemInFolder: (path: string) => revealed.push(path) },
  };
  const ready = (): void => {
    order.push('ready');
    readiness.resolve();
  };
  return { module, app, ready, order, privileged, handlers, errors, revealed, sessions, defaultSession, menu };
}

export type StandIn = ReturnType<typeof standIn>;
