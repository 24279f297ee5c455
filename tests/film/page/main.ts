/** The page of the film tests: offers the film engine to the test that drives it. */
import { decodeFrameTable } from '../../../src/film/table/frame-table-bytes.ts';
import type { FrameTable } from '../../../src/film/table/frame-table.ts';
import { proposeCuts } from '../../../src/film/cutting/propose-cuts.ts';
import { makeReel } from '../../../src/film/reel/make-reel.ts';
import { openHandover } from '../../../src/film/handover.ts';
import { openFrameServer } from '../../../src/film/frame-server/frame-server.ts';
import { paintFrame } from '../../../src/film/frame-server/paint-frame.ts';
import { benchTools } from '../../../scripts/film-bench/bench-tools.ts';
import { readCode } from '../../../scripts/coded-picture.ts';

async function fetchTable(film: string): Promise<FrameTable> {
  const answer = await fetch(`/table/${encodeURIComponent(film)}`);
  const table = decodeFrameTable(new Uint8Array(await answer.arrayBuffer()));
  if (!table.known) throw new Error(table.detail);
  return table.value;
}

const tools = { openFrameServer, openHandover, paintFrame, proposeCuts, makeReel, readCode, fetchTable };
export type FilmTools = typeof tools;
Object.assign(globalThis, { tools, bench: benchTools(fetchTable) });
