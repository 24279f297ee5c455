import { describe, expect, test } from 'vitest';
import { calibrate, type PointClick } from '../../../src/core/field/calibration.ts';
import { carried, reversed, standingAt } from '../../../src/core/field/carry-over.ts';
import { toField, toPicture } from '../../../src/core/field/field-map.ts';
import { inverseOf, mapped, product, type Homography } from '../../../src/core/field/homography.ts';
import { placeOf, type CrossingMark, type FieldSide, type NamedPoint } from '../../../src/core/field/named-point.ts';
import type { MarksPreset } from '../../../src/core/field/field-marks.ts';
import { distanceBetween, placeCovariance, placesFrom } from '../../../src/core/field/places.ts';
import { refinedFit } from '../../../src/core/field/refined-fit.ts';
import { randomFrom } from '../../../src/core/random.ts';
import { valueOf } from '../../value-of.ts';
import { demoCameras, groundInSight, pointsInSight } from './demo-cameras.ts';

const cameras = demoCameras(40);
const camera = cameras[0] ?? [1, 0, 0, 0, 1, 0, 0, 0, 1];
const at = (line: number, mark: CrossingMark, side: FieldSide): NamedPoint => ({ kind: 'yard line', line, mark, side });
const clickOn = (point: NamedPoint, preset: MarksPreset = 'college'): PointClick => {
  const { x, y } = mapped(camera, valueOf(placeOf(point, preset)));
  return Object.freeze({ point, x, y, sd: 1 });
};
const six = [
  at(20, 'hash', 'left'),
  at(20, 'hash', 'right'),
  at(30, 'hash', 'left'),
  at(30, 'hash', 'right'),
  at(20, 'sideline', 'right'),
  at(30, 'sideline', 'left'),
];
const choices = { frame: 7, preset: 'college' } as const;
const because = (clicks: readonly PointClick[], preset: MarksPreset = 'college') =>
  calibrate(Object.freeze(clicks), { frame: 7, preset });

describe('clicks that give no calibration say which fault', () => {
  test('three points', () => {
    expect(because(six.slice(0, 3).map((point) => clickOn(point)))).toMatchObject({
      because: 'fewer than four points',
    });
  });
  test('points on one yard line but one', () => {
    const line = [at(20, 'hash', 'left'), at(20, 'hash', 'right'), at(20, 'sideline', 'left'), at(30, 'hash', 'left')];
    expect(because(line.map((point) => clickOn(point)))).toMatchObject({ because: 'points on one line' });
  });
  test('two names on one spot, and one place by two names', () => {
    const clicks = six.map((point) => clickOn(point));
    const [first, second, ...rest] = clicks;
    if (first === undefined || second === undefined) throw new Error('six clicks are wanted');
    expect(because([first, { ...second, x: first.x, y: first.y }, ...rest])).toMatchObject({
      because: 'same place twice',
      detail: expect.stringContaining('own 20, right hash'),
    });
    const pylon = clickOn({ kind: 'pylon', goal: 'own', line: 'goal line', side: 'left' });
    expect(because([...clicks, pylon, clickOn(at(0, 'sideline', 'left'))])).toMatchObject({
      because: 'same place twice',
    });
  });
  test('left and right exchanged in every name', () => {
    const turned = six.map((point): PointClick => {
      return { ...clickOn(point), point: { ...point, side: point.side === 'left' ? 'right' : 'left' } };
    });
    expect(because(turned)).toMatchObject({ because: 'mirror image' });
  });
  test('a yard line beyond the field, numbers off the tens, school numbers with no fixed bottom', () => {
    const first = six.slice(1).map((point) => clickOn(point));
    const off = { ...clickOn(at(20, 'hash', 'left')), point: at(130, 'hash', 'left') };
    expect(because([off, ...first])).toMatchObject({ because: 'off the field' });
    expect(because([{ ...off, point: at(25, 'number top', 'left') }, ...first])).toMatchObject({
      because: 'no such mark',
    });
    expect(because([{ ...off, point: at(20, 'number bottom', 'left') }, ...first], 'school')).toMatchObject({
      because: 'no such mark',
    });
  });
  test('one corner of four pulled inside the others puts a point behind the camera', () => {
    const clicks = [
      at(0, 'sideline', 'left'),
      at(100, 'sideline', 'left'),
      at(100, 'sideline', 'right'),
      at(0, 'sideline', 'right'),
    ];
    const spots = [
      [0, 0],
      [900, 100],
      [300, 200],
      [0, 600],
    ] as const;
    const given = clicks.map((point, index) => ({
      point,
      x: spots[index]?.[0] ?? 0,
      y: spots[index]?.[1] ?? 0,
      sd: 1,
    }));
    expect(because(given)).toMatchObject({ because: 'behind the camera' });
  });
  test('points in a far corner of the picture hold it too loosely', () => {
    const tiny = [at(20, 'hash', 'left'), at(21, 'hash', 'left'), at(20, 'hash', 'right'), at(21, 'hash', 'right')];
    const shrunk = tiny.map((point) => {
      const click = clickOn(point);
      return { ...click, x: 600 + click.x / 12, y: 300 + click.y / 12 };
    });
    expect(because(shrunk)).toMatchObject({ because: 'badly conditioned' });
  });
  test('hashes of another level are named when sidelines are clicked too', () => {
    expect(because(six.map((point) => clickOn(point, 'professional')))).toMatchObject({
      because: 'professional marks fit',
    });
    expect(
      because(
        six.map((point) => clickOn(point)),
        'professional',
      ),
    ).toMatchObject({ because: 'college marks fit' });
    expect(
      because(
        six.map((point) => clickOn(point)),
        'school',
      ),
    ).toMatchObject({ because: 'college marks fit' });
  });
  test('one name wrong by five yards is named', () => {
    const clicks = [...six, at(25, 'hash', 'left'), at(25, 'hash', 'right')].map((point) => clickOn(point));
    const wrong = clicks.map((click, index) => (index === 6 ? { ...click, point: at(35, 'hash', 'left') } : click));
    expect(because(wrong)).toMatchObject({
      because: 'points disagree',
      detail: expect.stringContaining('own 35, left hash'),
    });
  });
});

test('a calibration of exact clicks maps there and back, whatever the order of the points', () => {
  const one = valueOf(
    calibrate(
      six.map((point) => clickOn(point)),
      choices,
    ),
  );
  const other = valueOf(
    calibrate(
      six.toReversed().map((point) => clickOn(point)),
      choices,
    ),
  );
  expect(one.worst.pixels).toBeLessThan(1e-4);
  for (const place of groundInSight(camera).slice(0, 50)) {
    const pixel = valueOf(toPicture(one, place));
    expect(valueOf(toField(one, pixel)).x).toBeCloseTo(place.x, 6);
    expect(valueOf(toField(one, pixel)).y).toBeCloseTo(place.y, 6);
    expect(valueOf(toPicture(other, place)).x).toBeCloseTo(pixel.x, 4);
  }
});

test('a picture of twice the size with clicks twice as loose gives the same places and errors', () => {
  const clicks = six.map((point) => clickOn(point));
  const one = valueOf(calibrate(clicks, choices));
  const two = valueOf(
    calibrate(
      clicks.map((click) => ({ ...click, x: 2 * click.x, y: 2 * click.y, sd: 2 })),
      choices,
    ),
  );
  const a = valueOf(placesFrom([{ map: one, x: 640, y: 400, sd: 1 }]));
  const b = valueOf(placesFrom([{ map: two, x: 1280, y: 800, sd: 2 }]));
  expect(b.places[0]?.x).toBeCloseTo(a.places[0]?.x ?? 0, 6);
  for (const [index, value] of placeCovariance(a, 0).entries()) {
    expect(placeCovariance(b, 0)[index]).toBeCloseTo(value, 8);
  }
});

/** Clicks at truth plus noise on the demo's cameras: share covered by the 95 % errors, and sizes of the miss. */
function trial(rounds: number, seed: number) {
  const random = randomFrom(seed);
  const missed: number[] = [];
  let places = 0;
  let distances = 0;
  let done = 0;
  while (done < rounds) {
    const h = cameras[random.below(cameras.length)] ?? camera;
    const seen = [...pointsInSight(h)];
    const ground = groundInSight(h);
    if (seen.length < 6 || ground.length < 10) continue;
    const count = 6 + random.below(Math.min(seen.length, 10) - 5);
    const clicks: PointClick[] = [];
    while (clicks.length < count) {
      const [one] = seen.splice(random.below(seen.length), 1);
      if (one === undefined) break;
      clicks.push({ ...one, x: one.x + random.normal(), y: one.y + random.normal(), sd: 1 });
    }
    const fitted = calibrate(clicks, choices);
    if (!fitted.known) continue;
    const map = fitted.value;
    const truth = [ground[random.below(ground.length)], ground[random.below(ground.length)]];
    const found = placesFrom(
      truth.map((place) => {
        const pixel = mapped(h, place ?? { x: 50, y: 20 });
        return { map, x: pixel.x + random.normal(), y: pixel.y + random.normal(), sd: 1 };
      }),
    );
    const [a, b] = truth;
    const near = a !== undefined && mapped(h, a).y > 720 / 3;
    if (!found.known || a === undefined || b === undefined || (a.x === b.x && a.y === b.y)) continue;
    done += 1;
    const here = found.value.places[0] ?? { x: 0, y: 0 };
    const [xx, xy, yy] = placeCovariance(found.value, 0);
    const dx = here.x - a.x;
    const dy = here.y - a.y;
    if ((yy * dx * dx - 2 * xy * dx * dy + xx * dy * dy) / (xx * yy - xy * xy) <= 5.991) places += 1;
    const { value, error } = distanceBetween(found.value, 0, 1);
    if (Math.abs(value - Math.hypot(a.x - b.x, a.y - b.y)) <= 1.96 * error) distances += 1;
    if (near) missed.push(Math.hypot(dx, dy));
  }
  missed.sort((p, q) => p - q);
  const quantile = (share: number) => missed[Math.floor(share * missed.length)] ?? Infinity;
  return { places: places / rounds, distances: distances / rounds, median: quantile(0.5), p95: quantile(0.95) };
}

test('95 % errors of places and distances cover 93 to 97 % over 2,000 trials on the demo cameras, and the misses are small', () => {
  const { places, distances, median, p95 } = trial(2000, 11);
  for (const share of [places, distances]) {
    expect(share).toBeGreaterThan(0.93);
    expect(share).toBeLessThan(0.97);
  }
  expect(median).toBeLessThanOrEqual(0.15);
  expect(p95).toBeLessThanOrEqual(0.4);
});

test('a map carried sixty frames along noisy motions grows its error, still covers the truth, and goes stale', () => {
  const random = randomFrom(3);
  let covered = 0;
  const trials = 40;
  let grew = 0;
  for (let round = 0; round < trials; round += 1) {
    let truth: Homography = camera;
    const noisy = six.map((point) => {
      const click = clickOn(point);
      return { ...click, x: click.x + random.normal(), y: click.y + random.normal() };
    });
    const start = valueOf(calibrate(noisy, { frame: 0, preset: 'college' }));
    let map: Parameters<typeof carried>[0] = start;
    for (let frame = 0; frame < 60; frame += 1) {
      const move: Homography = [1.002, 0.001, 3, -0.001, 1.002, 0.5, 1e-7, -1e-7, 1];
      truth = product(move, truth);
      const pairs = Array.from({ length: 30 }, () => {
        const from = { x: 1280 * random.uniform(), y: 720 * random.uniform() };
        const to = mapped(move, from);
        return { from, to: { x: to.x + 0.3 * random.normal(), y: to.y + 0.3 * random.normal() }, sd: 0.3 };
      });
      const { homography, factor } = valueOf(refinedFit(pairs));
      map = carried(map, { from: frame, to: frame + 1, homography, columns: factor });
    }
    const place = valueOf(toField({ ...map, homography: truth }, { x: 640, y: 360 }));
    const found = valueOf(placesFrom([{ map, ...mapped(truth, place), sd: 0 }]));
    const [xx, xy, yy] = placeCovariance(found, 0);
    const dx = (found.places[0]?.x ?? 0) - place.x;
    const dy = (found.places[0]?.y ?? 0) - place.y;
    if ((yy * dx * dx - 2 * xy * dx * dy + xx * dy * dy) / (xx * yy - xy * xy) <= 5.991) covered += 1;
    const before = valueOf(standingAt(start, [{ x: 640, y: 360 }], 0.5));
    const after = valueOf(standingAt(map, [{ x: 640, y: 360 }], 0.5));
    if (after.error > before.error) grew += 1;
    expect(valueOf(standingAt(map, [{ x: 640, y: 360 }], after.error / 2)).good).toBe(false);
  }
  expect(covered).toBeGreaterThanOrEqual(35);
  expect(grew).toBe(trials);
});

test('a motion carried forth and back gives the first map again, and its errors share one cause', () => {
  const start = valueOf(
    calibrate(
      six.map((point) => clickOn(point)),
      choices,
    ),
  );
  const motion = { from: 7, to: 8, homography: [1, 0, 4, 0, 1, 1, 0, 0, 1] as Homography, columns: [] };
  const back = carried(carried(start, motion), reversed(motion));
  const h = product(inverseOf(start.homography), back.homography);
  for (const [index, value] of [1, 0, 0, 0, 1, 0, 0, 0, 1].entries())
    expect((h[index] ?? 0) / h[8]).toBeCloseTo(value, 8);
  expect(back.sources.map(({ id }) => id)).toEqual(['clicks 7', 'motion 7-8', 'motion 7-8']);
});
