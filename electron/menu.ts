import type { MenuItemConstructorOptions } from 'electron';

/** One thing the menu bar can have done: its words, its keys as Electron writes them, and the doing. */
export type MenuAction = { readonly label: string; readonly accelerator?: string; readonly run: () => void };

/** The menu bar: our actions where people look for them, the system's own roles for the rest. */
export function menuTemplate(
  fileActions: readonly MenuAction[],
  platform: NodeJS.Platform,
): MenuItemConstructorOptions[] {
  const file: MenuItemConstructorOptions[] = fileActions.map(({ label, accelerator, run }) => ({
    label,
    ...(accelerator === undefined ? {} : { accelerator }),
    click: () => run(),
  }));
  return [
    ...(platform === 'darwin' ? [{ role: 'appMenu' } as const] : []),
    {
      label: '&File',
      submenu: [...file, { type: 'separator' }, platform === 'darwin' ? { role: 'close' } : { role: 'quit' }],
    },
    // Undo and redo are the window's own, of the study: the system's would undo typing only and take their keys.
    {
      label: '&Edit',
      submenu: [{ role: 'cut' }, { role: 'copy' }, { role: 'paste' }, { type: 'separator' }, { role: 'selectAll' }],
    },
    {
      label: '&View',
      submenu: [
        { role: 'resetZoom' },
        { role: 'zoomIn' },
        { role: 'zoomOut' },
        { type: 'separator' },
        { role: 'togglefullscreen' },
      ],
    },
    { role: 'windowMenu' },
  ];
}
