/** Calls the host makes to its study worker beside the contract's: files and blobs that never cross the door as JSON. */
import type { Film, Row, TableName } from '../../contract/rows.ts';
import type { DossierView, IssuedView } from '../../contract/views.ts';

export type InnerCalls = {
  'inner.film': { input: { filmId: string }; output: { film: Film; path: string | null; studyFolder: string } };
  'inner.rows': { input: { table: TableName }; output: Row<TableName>[] };
  'inner.frameTable': { input: { fingerprint: string }; output: Uint8Array | null };
  'inner.keepFrameTable': { input: { fingerprint: string; bytes: Uint8Array }; output: null };
  'inner.still': { input: { stillId: string }; output: Uint8Array | null };
  'inner.keepIssued': {
    input: { issued: Omit<IssuedView, 'hasPdf'>; madeFrom: DossierView; html: string; pdf: Uint8Array | null };
    output: null;
  };
  'inner.issuedFile': { input: { id: string; kind: 'html' | 'pdf' }; output: Uint8Array | null };
  'inner.issuedSource': { input: { id: string }; output: { madeFrom: DossierView; paper: 'A4' | 'Letter' } | null };
  /** Makes ready what the rooms will ask for after a change, while nobody waits. */
  'inner.warm': { input: null; output: null };
  'inner.close': { input: null; output: null };
};
export type InnerName = keyof InnerCalls;
