/** What only a shell can do for the host. A shell that can't do a thing leaves it out, and the window is told why. */
export type Native = {
  /** Turns one self-contained HTML file into PDF bytes; rejects with a FaultError 'no-printer' where nothing can print. */
  readonly printPdf?: (html: string, paper: 'A4' | 'Letter') => Promise<Uint8Array>;
};
