/** What only a shell can do for the host. A shell that can't do a thing leaves it out, and the window is told why. */
export type Native = {
  /** Turns one self-contained HTML file into PDF bytes; rejects with a FaultError 'no-printer' where nothing can print. */
  readonly printPdf?: (html: string, paper: 'A4' | 'Letter') => Promise<Uint8Array>;
  /** Lets the person choose files in the system's own dialog: absolute paths, none when put away. */
  readonly pickFiles?: (ask: {
    readonly want: 'film' | 'study' | 'any';
    readonly many: boolean;
  }) => Promise<readonly string[]>;
  /** Shows a file in the system's file manager; does nothing for one that is not there. */
  readonly revealInFolder?: (path: string) => void;
};
