import { statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { ALL_FORMATS, EncodedPacketSink, FilePathSource, Input } from 'mediabunny';
import { describe, expect, test } from 'vitest';
import { FIELD } from '../../scripts/demo/field-measure.ts';
import { DEMO, readSeason, readTruth, type TruthSpan } from './read-demo.ts';

const season = readSeason();

function onPicture(matrix: readonly number[], x: number, y: number, z = 0): [number, number, number] {
  const row = (at: number): number =>
    (matrix[at] ?? 0) * x + (matrix[at + 1] ?? 0) * y + (matrix[at + 2] ?? 0) * z + (matrix[at + 3] ?? 0);
  return [row(0) / row(8), row(4) / row(8), row(8)];
}

function shots(spans: readonly TruthSpan[]): TruthSpan[] {
  return spans.filter((span) => span.kind !== 'score card');
}

describe('the demo films', () => {
  test('are under 30 MB together', () => {
    const bytes = season.films.reduce((sum, film) => sum + statSync(new URL(film.file, DEMO)).size, 0);
    expect(bytes).toBeLessThan(30_000_000);
  });

  test.each(season.films)('$id opens as H.264 with the frames, times and key frames the truth says', async (film) => {
    const truth = readTruth(film);
    expect(truth.frameCount).toBe(film.frameCount);
    const input = new Input({
      formats: ALL_FORMATS,
      source: new FilePathSource(fileURLToPath(new URL(film.file, DEMO))),
    });
    const track = await input.getPrimaryVideoTrack();
    if (!track) throw new Error(`a video track was wanted in ${film.file}, got none`);
    expect([await track.getCodec(), await track.getCodedWidth(), await track.getCodedHeight()]).toEqual([
      'avc',
      1280,
      720,
    ]);
    const sink = new EncodedPacketSink(track);
    const times: number[] = [];
    const keys = new Set<number>();
    for await (const packet of sink.packets(undefined, undefined, { metadataOnly: true })) {
      if (packet.type === 'key') keys.add(times.length);
      times.push(packet.timestamp);
    }
    expect(times.length).toBe(film.frameCount);
    for (const [frame, time] of times.entries()) expect(Math.abs(time - (frame * 1001) / 30000)).toBeLessThan(1e-4);
    for (const span of truth.spans) expect(keys.has(span.inFrame), `key frame at ${span.inFrame}`).toBe(true);
  });

  test.each(season.films)('$id: shots and transitions fill the film, one frame to one shot', (film) => {
    const truth = readTruth(film);
    const seen = Array.from({ length: truth.frameCount }, () => 0);
    for (const span of truth.spans)
      for (let frame = span.inFrame; frame <= span.outFrame; frame += 1) seen[frame] = (seen[frame] ?? 0) + 1;
    for (const change of truth.transitions) {
      for (let frame = change.frame; frame < change.frame + change.lengthFrames; frame += 1)
        seen[frame] = (seen[frame] ?? 0) + 1;
      if (change.kind === 'cut') expect(truth.spans.some((span) => span.inFrame === change.frame)).toBe(true);
    }
    expect(seen.every((count) => count === 1)).toBe(true);
  });

  test.each(season.films)('$id: cameras put the runner and his feet on the picture', (film) => {
    for (const span of shots(readTruth(film).spans)) {
      expect(span.cameras.length).toBe(span.outFrame - span.inFrame + 1);
      expect(span.figures.length).toBe(22);
      for (const step of span.steps) {
        const [x, y, depth] = onPicture(span.cameras[step.frame - span.inFrame] ?? [], step.x, step.y);
        expect(depth).toBeGreaterThan(0);
        expect(x > 0 && x < 1280 && y > 0 && y < 720, `${span.playId} foot at ${step.frame}: ${x}, ${y}`).toBe(true);
      }
      const runner = span.figures.find((figure) => figure.slot === 'runner');
      span.cameras.forEach((camera, at) => {
        const [x, y] = onPicture(camera, runner?.places[at * 2] ?? 0, runner?.places[at * 2 + 1] ?? 0, 1);
        if (runner && span.steps.length > 8)
          expect(x > 0 && x < 1280 && y > -20 && y < 740, `${span.playId} frame ${at}: ${x}, ${y}`).toBe(true);
      });
    }
  });

  test('no figure outruns a man, nobody jumps', () => {
    // Fastest sprinting measured at about 12.2 m/s (13.3 yd/s) in published sprint studies; 12 is far above play speed.
    for (const film of season.films) {
      for (const span of shots(readTruth(film).spans)) {
        for (const figure of span.figures) {
          for (let at = 2; at < figure.places.length; at += 2) {
            const dx = (figure.places[at] ?? 0) - (figure.places[at - 2] ?? 0);
            const dy = (figure.places[at + 1] ?? 0) - (figure.places[at - 1] ?? 0);
            const speed = (Math.hypot(dx, dy) * 30000) / 1001 / span.timeScale;
            expect(speed, `${span.playId} ${figure.slot} at ${at / 2}`).toBeLessThan(12);
          }
        }
      }
    }
  });

  test('the sideline camera stands still while it pans, and some shots zoom', () => {
    // The camera's place is the null vector of its 3x4 matrix; it may not move within a shot.
    let zoomed = 0;
    for (const film of season.films) {
      for (const span of shots(readTruth(film).spans)) {
        const first = span.cameras[0] ?? [];
        const last = span.cameras.at(-1) ?? [];
        const [a, b] = [placeOf(first), placeOf(last)];
        a.forEach((value, axis) => expect(value).toBeCloseTo(b[axis] ?? 0, 3));
        if (focalOf(last) / focalOf(first) > 1.05) zoomed += 1;
      }
    }
    expect(zoomed).toBeGreaterThan(5);
  });

  test('the field is the college field: 160 ft wide, hashes 60 ft in, numbers with tops at 9 yd, goals 18 ft 6 in', () => {
    // Rule book measures (NCAA Rules 1-2-1, 1-2-5 and Appendix D, by way of quotations).
    expect(FIELD.width * 3).toBeCloseTo(160, 9);
    expect(FIELD.leftHash * 3).toBeCloseTo(60, 9);
    expect((FIELD.rightHash - FIELD.leftHash) * 3).toBeCloseTo(40, 9);
    expect((FIELD.numberTop - FIELD.numberBottom) * 3).toBeCloseTo(6, 9);
    expect([FIELD.numberTop, FIELD.goalInside * 3, FIELD.crossbar * 3]).toEqual([9, 18.5, 10]);
    expect([FIELD.lineWidth * 36, FIELD.goalLineWidth * 36, FIELD.shortMark * 36]).toEqual([4, 8, 24]);
  });
});

function placeOf(m: readonly number[]): number[] {
  const at = (row: number, column: number): number => m[row * 4 + column] ?? 0;
  const minor = (skip: number): number => {
    const [a = 0, b = 0, c = 0] = [0, 1, 2, 3].filter((column) => column !== skip);
    return (
      at(0, a) * (at(1, b) * at(2, c) - at(1, c) * at(2, b)) -
      at(0, b) * (at(1, a) * at(2, c) - at(1, c) * at(2, a)) +
      at(0, c) * (at(1, a) * at(2, b) - at(1, b) * at(2, a))
    );
  };
  const w = -minor(3);
  return [minor(0) / w, -minor(1) / w, minor(2) / w];
}

function focalOf(m: readonly number[]): number {
  const row = (at: number): readonly number[] => m.slice(at * 4, at * 4 + 3);
  const third = row(2);
  const dot = row(0).reduce((sum, value, axis) => sum + value * (third[axis] ?? 0), 0);
  return Math.sqrt(row(0).reduce((sum, value) => sum + value * value, 0) - dot * dot);
}
