/** The cutting worker. The page starts it with `new Worker(new URL('./worker.ts', import.meta.url))`. */
import { FaultError, faultOf } from '../../contract/faults.ts';
import { openCutter } from '../../core/cutting/cutter.ts';
import { proposeSpans } from '../../core/cutting/propose-spans.ts';
import { writeSignature } from '../../core/cutting/signature.ts';
import { framesPerSecond } from '../../core/time/rate.ts';
import { openFilmSource } from '../frame-server/film-source.ts';
import { lumaOf } from '../frame-server/picture.ts';
import { everyPicture } from './every-picture.ts';
import type { FromCutter, ToCutter } from './messages.ts';

type WorkerScope = {
  addEventListener: (kind: 'message', heard: (event: { readonly data: ToCutter }) => void) => void;
  postMessage: (message: FromCutter) => void;
};
const scope = globalThis as unknown as WorkerScope;

/** Frames between two reports of progress. */
const reportEvery = 64;

async function cut({ url, table }: ToCutter): Promise<void> {
  const perSecond = framesPerSecond(table.rate);
  const source = await openFilmSource(url, table);
  const cutter = openCutter(perSecond);
  const seen: number[] = [];
  const grey = new Map<number, Uint8Array>();
  await everyPicture(source, table, (picture, frame) => {
    const { width, height, data } = picture;
    const chroma = ((width + 1) >> 1) * ((height + 1) >> 1);
    const i420 = picture.format === 'i420';
    const plain = grey.get(chroma) ?? new Uint8Array(chroma).fill(128);
    grey.set(chroma, plain);
    writeSignature(cutter.row(), {
      width,
      height,
      luma: i420 ? data.subarray(0, width * height) : lumaOf(picture),
      blue: i420 ? data.subarray(width * height, width * height + chroma) : plain,
      red: i420 ? data.subarray(width * height + chroma) : plain,
    });
    cutter.push();
    seen.push(frame);
    if (seen.length % reportEvery === 0) tell({ kind: 'progress', done: frame / table.times.length });
  });
  source.close();
  const { shots, transitions } = cutter.finish();
  // Frames that were stepped over leave a gap: what the cutter counted is put back into the film's own numbers.
  const own = (counted: number): number => seen[counted] ?? table.times.length - 1;
  const spans = proposeSpans(shots, perSecond).map((span) => ({
    ...span,
    first: own(span.first),
    last: own(span.last),
  }));
  const moved = transitions.map((change) => ({ ...change, last: own(change.last), first: own(change.first) }));
  const lost = table.times.length - seen.length;
  tell({ kind: 'proposals', proposals: { transitions: moved, spans, lost } });
}

const tell = (message: FromCutter): void => {
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker has no origin to name
  scope.postMessage(message);
};

scope.addEventListener('message', ({ data }) => {
  cut(data).catch((error: unknown) => {
    const fault =
      error instanceof FaultError
        ? error.fault
        : faultOf('internal', `Cutting stopped: ${String(error)}`, 'Try again.');
    tell({ kind: 'fault', fault });
  });
});
