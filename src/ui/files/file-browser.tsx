import { File, Folder } from 'lucide-react';
import { useEffect, useState } from 'react';
import type { CallOutput } from '../../contract/calls.ts';
import { Button } from '../kit/button.tsx';
import { Dialog } from '../kit/dialog.tsx';
import { call } from '../link/call.ts';
import { attempt } from '../link/place.ts';

type Listing = CallOutput<'files.browse'>;

const megabytes = (bytes: number): string =>
  bytes < 1e6 ? `${Math.ceil(bytes / 1e3)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;

/** The program's own file browser, confined to the folders it was allowed; `want` folder chooses the folder shown. */
export function FileBrowser({
  want,
  title,
  open,
  onClose,
  onChoose,
}: {
  want: 'film' | 'study' | 'folder';
  title: string;
  open: boolean;
  onClose: () => void;
  onChoose: (path: string) => void;
}) {
  const [listing, setListing] = useState<Listing | null>(null);
  const show = (folder: string | null): void => {
    void attempt(async () =>
      setListing(await call('files.browse', { folder, want: want === 'folder' ? 'study' : want })),
    );
  };
  useEffect(() => {
    if (open && listing === null) show(null);
  });
  const { folder = '', parent = null, entries = [], roots = [] } = listing ?? {};
  return (
    <Dialog title={title} open={open} onClose={onClose}>
      <div className="row">
        {roots.map((root) => (
          <Button key={root} kind="quiet" onClick={() => show(root)}>
            {root.split(/[\\/]/).at(-1) || root}
          </Button>
        ))}
      </div>
      <p className="file-folder">{folder}</p>
      <ul className="file-list" aria-label="Files">
        {parent === null ? null : (
          <li>
            <button type="button" onClick={() => show(parent)}>
              <Folder size={16} aria-hidden /> Up one folder
            </button>
          </li>
        )}
        {entries.map((entry) => (
          <li key={entry.path}>
            <button
              type="button"
              onClick={() => (entry.folder ? show(entry.path) : want === 'folder' ? undefined : onChoose(entry.path))}
            >
              {entry.folder ? <Folder size={16} aria-hidden /> : <File size={16} aria-hidden />}
              <span>{entry.name}</span>
              {entry.folder ? null : <span className="muted">{megabytes(entry.bytes)}</span>}
            </button>
          </li>
        ))}
        {listing !== null && entries.length === 0 ? <li className="muted">Nothing of this kind here.</li> : null}
      </ul>
      {want === 'folder' ? (
        <Button kind="chosen" onClick={() => onChoose(folder)}>
          Use this folder
        </Button>
      ) : null}
    </Dialog>
  );
}
