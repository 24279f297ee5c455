import { FIELD, type Point3 } from '../field-measure.ts';
import { seeded } from '../seed.ts';
import { fillPolygons, seen, type Lens } from './lens.ts';
import type { Venue } from './venue.ts';

type Stand = {
  readonly along: (s: number, out: number, height: number) => Point3;
  readonly from: number;
  readonly to: number;
};

const WALL = 1.5;
const SET_BACK = 12;
const ROWS = 26;
const RISE = 0.52;
const TREAD = 0.95;

const STANDS: readonly Stand[] = [
  { along: (s, out, height) => [s, -SET_BACK - out, height], from: -22, to: 122 },
  { along: (s, out, height) => [FIELD.length + 20 + out, s, height], from: -10, to: FIELD.width + 10 },
  { along: (s, out, height) => [-20 - out, s, height], from: -10, to: FIELD.width + 10 },
  { along: (s, out, height) => [s, FIELD.width + 14 + out, height], from: -22, to: 122 },
];

type Fan = {
  readonly stand: number;
  readonly s: number;
  readonly row: number;
  readonly colour: number;
  readonly tall: number;
};

function seatFans(): Fan[] {
  const next = seeded(91);
  const fans: Fan[] = [];
  STANDS.forEach((stand, index) => {
    for (let row = 0; row < ROWS; row += 1) {
      for (let s = stand.from + 0.4; s < stand.to; s += 0.72) {
        const aisle = Math.abs(((s + 400) % 17) - 8.5) > 7.7;
        if (aisle || next() < 0.16) continue;
        fans.push({
          stand: index,
          s: s + (next() - 0.5) * 0.2,
          row,
          colour: Math.floor(next() * 10),
          tall: 0.85 + next() * 0.35,
        });
      }
    }
  });
  return fans;
}

const FANS = seatFans();

function facing(lens: Lens, index: number): boolean {
  const { at, target } = lens.camera;
  const way: Point3 = [target[0] - at[0], target[1] - at[1], 0];
  switch (index) {
    case 0:
      return way[1] < 0 || Math.abs(way[1]) < Math.abs(way[0]) * 2;
    case 1:
      return way[0] > Math.abs(way[1]) * 0.35;
    case 2:
      return way[0] < -Math.abs(way[1]) * 0.35;
    default:
      return at[1] < 75 && Math.abs(way[0]) > Math.abs(way[1]);
  }
}

function paintSky(lens: Lens, venue: Venue): void {
  const { context } = lens;
  const { at, target } = lens.camera;
  const reach = Math.hypot(target[0] - at[0], target[1] - at[1]);
  const far = seen(lens, [
    at[0] + ((target[0] - at[0]) / reach) * 4000,
    at[1] + ((target[1] - at[1]) / reach) * 4000,
    at[2],
  ]);
  const horizon = far?.y ?? 0;
  if (horizon < -160) return;
  const shade = context.createLinearGradient(0, horizon - 420, 0, horizon);
  shade.addColorStop(0, venue.sky[0]);
  shade.addColorStop(1, venue.sky[1]);
  context.fillStyle = shade;
  context.fillRect(0, 0, context.canvas.width, Math.max(0, horizon + 2));
}

function paintStand(lens: Lens, venue: Venue, index: number): void {
  const stand = STANDS[index];
  if (!stand) return;
  const { context } = lens;
  const quad = (out0: number, h0: number, out1: number, h1: number): Point3[] => [
    stand.along(stand.from, out0, h0),
    stand.along(stand.to, out0, h0),
    stand.along(stand.to, out1, h1),
    stand.along(stand.from, out1, h1),
  ];
  fillPolygons(lens, venue.standDark, [quad(ROWS * TREAD + 2, 0, ROWS * TREAD + 2, WALL + ROWS * RISE + 6)]);
  fillPolygons(lens, venue.stand, [quad(0, WALL, ROWS * TREAD, WALL + ROWS * RISE)]);
  const treads: Point3[][] = [];
  for (let row = 0; row < ROWS; row += 1) {
    treads.push(quad(row * TREAD, WALL + row * RISE, row * TREAD + 0.35, WALL + row * RISE));
  }
  fillPolygons(lens, 'rgba(30,32,38,0.20)', treads);
  venue.crowd.forEach((colour, at) => {
    context.fillStyle = colour;
    context.beginPath();
    for (const fan of FANS) {
      if (fan.stand !== index || fan.colour !== at) continue;
      const out = fan.row * TREAD + 0.45;
      const foot = seen(lens, stand.along(fan.s, out, WALL + fan.row * RISE));
      if (!foot || foot.x < -12 || foot.x > 1292 || foot.y < -20 || foot.y > 760) continue;
      const wide = 0.5 * foot.scale;
      const tall = fan.tall * foot.scale;
      context.rect(foot.x - wide / 2, foot.y - tall, wide, tall * 0.8);
    }
    context.fill();
  });
  for (const [colour, share] of [
    ['#b98d6d', 0],
    ['#6e4c3a', 1],
  ] as const) {
    context.fillStyle = colour;
    context.globalAlpha = 0.75;
    context.beginPath();
    for (const fan of FANS) {
      if (fan.stand !== index || (fan.colour % 3 === 0 ? 1 : 0) !== share) continue;
      const out = fan.row * TREAD + 0.45;
      const head = seen(lens, stand.along(fan.s, out, WALL + fan.row * RISE + fan.tall * 1.02));
      if (!head || head.x < -12 || head.x > 1292 || head.y < -20 || head.y > 760) continue;
      const size = 0.28 * head.scale;
      context.rect(head.x - size / 2, head.y - size / 2, size, size);
    }
    context.fill();
    context.globalAlpha = 1;
  }
  fillPolygons(lens, venue.haze, [quad(0, WALL - 0.2, ROWS * TREAD, WALL + ROWS * RISE + 2)]);
  paintCorners(lens, venue, index);
  fillPolygons(lens, venue.wall, [quad(0, 0, 0, WALL)]);
  fillPolygons(lens, 'rgba(255,255,255,0.20)', [quad(0, WALL - 0.14, 0, WALL)]);
}

/** Joins the side stand to both end stands with a plain bank of seats, so that no grass shows through a corner. */
function paintCorners(lens: Lens, venue: Venue, index: number): void {
  const side = STANDS[index];
  if ((index !== 0 && index !== 3) || !side) return;
  const meets = (end: Stand): number => (index === 0 ? end.from : end.to);
  const back = ROWS * TREAD;
  const top = WALL + ROWS * RISE;
  for (const [end, s] of [
    [STANDS[1], side.to],
    [STANDS[2], side.from],
  ] as const) {
    if (!end) continue;
    const front: Point3 = side.along(s, 0, WALL);
    const other: Point3 = end.along(meets(end), 0, WALL);
    const inside = s + Math.sign(50 - s) * 2.5;
    const bank = [side.along(inside, 0, WALL), side.along(inside, back, top), end.along(meets(end), back, top), other];
    fillPolygons(lens, venue.stand, [bank]);
    fillPolygons(lens, venue.haze, [bank]);
    fillPolygons(lens, venue.wall, [[front, other, [other[0], other[1], 0], [front[0], front[1], 0]]]);
  }
}

function paintGoal(lens: Lens, x: number): void {
  const { context } = lens;
  const y = FIELD.width / 2;
  const half = FIELD.goalInside / 2;
  const bars: readonly (readonly [Point3, Point3, number])[] = [
    [[x + Math.sign(x - 50) * 1.6, y, 0], [x + Math.sign(x - 50) * 1.6, y, FIELD.crossbar - 0.5], 0.3],
    [[x + Math.sign(x - 50) * 1.6, y, FIELD.crossbar - 0.5], [x, y, FIELD.crossbar], 0.22],
    [[x, y - half, FIELD.crossbar], [x, y + half, FIELD.crossbar], 0.17],
    [[x, y - half, FIELD.crossbar], [x, y - half, FIELD.uprightTop], 0.13],
    [[x, y + half, FIELD.crossbar], [x, y + half, FIELD.uprightTop], 0.13],
  ];
  context.lineCap = 'round';
  for (const [from, to, wide] of bars) {
    const a = seen(lens, from);
    const b = seen(lens, to);
    if (!a || !b) continue;
    context.strokeStyle = '#d9b33c';
    context.lineWidth = Math.max(1.5, wide * a.scale);
    context.beginPath();
    context.moveTo(a.x, a.y);
    context.lineTo(b.x, b.y);
    context.stroke();
  }
}

type Bystander = {
  readonly x: number;
  readonly y: number;
  readonly colour: string;
  readonly legs: string;
  readonly tall: number;
};

function bystanders(venue: Venue): Bystander[] {
  const next = seeded(venue.crest === 'ridge' ? 5 : 6);
  return Array.from({ length: 52 }, (_, at) => ({
    x: 24 + at * 1.02 + (next() - 0.5) * 0.9,
    y: -3.6 - next() * 2.4,
    colour: next() < 0.7 ? venue.wall : next() < 0.5 ? '#d9d6cc' : '#3a3c40',
    legs: next() < 0.6 ? '#c9c3b4' : '#2b2d31',
    tall: 1.85 + next() * 0.25,
  }));
}

function paintBench(lens: Lens, venue: Venue): void {
  const { context } = lens;
  for (const man of bystanders(venue).sort((a, b) => a.y - b.y)) {
    const foot = seen(lens, [man.x, man.y, 0]);
    if (!foot || foot.x < -30 || foot.x > 1310 || foot.y < -40 || foot.y > 800) continue;
    const s = foot.scale;
    context.fillStyle = 'rgba(14,26,18,0.25)';
    context.beginPath();
    context.ellipse(foot.x + 0.3 * s, foot.y, 0.55 * s, 0.14 * s, 0, 0, Math.PI * 2);
    context.fill();
    context.fillStyle = man.legs;
    context.fillRect(foot.x - 0.17 * s, foot.y - man.tall * 0.48 * s, 0.15 * s, man.tall * 0.48 * s);
    context.fillRect(foot.x + 0.02 * s, foot.y - man.tall * 0.48 * s, 0.15 * s, man.tall * 0.48 * s);
    context.fillStyle = man.colour;
    context.beginPath();
    context.roundRect(foot.x - 0.29 * s, foot.y - man.tall * 0.86 * s, 0.58 * s, man.tall * 0.42 * s, 0.14 * s);
    context.fill();
    context.fillStyle = man.colour === venue.wall ? venue.paint : '#8a6a52';
    context.beginPath();
    context.arc(foot.x, foot.y - man.tall * 0.93 * s, 0.16 * s, 0, Math.PI * 2);
    context.fill();
  }
}

function paintPylons(lens: Lens): void {
  for (const x of [-FIELD.endZone, 0, FIELD.length, FIELD.length + FIELD.endZone]) {
    for (const y of [-0.06, FIELD.width + 0.06]) {
      const foot = seen(lens, [x, y, 0]);
      if (!foot) continue;
      const wide = Math.max(2, foot.scale / 9);
      lens.context.fillStyle = '#e8792b';
      lens.context.fillRect(foot.x - wide / 2, foot.y - foot.scale * 0.5, wide, foot.scale * 0.5);
    }
  }
}

/** Paints everything beyond the grass: sky, stands with their crowd, goals, the far bench, pylons. */
export function paintSurround(lens: Lens, venue: Venue): void {
  paintSky(lens, venue);
  [3, 2, 1, 0].filter((index) => facing(lens, index)).forEach((index) => paintStand(lens, venue, index));
  paintBench(lens, venue);
}

/** Paints what stands on the field's edge and may hide grass behind it: goals and pylons. */
export function paintFurniture(lens: Lens): void {
  lens.context.save();
  paintGoal(lens, -FIELD.endZone);
  paintGoal(lens, FIELD.length + FIELD.endZone);
  paintPylons(lens);
  lens.context.restore();
}

/** A soft dark edge and a breath of the day's light, as a lens gives. */
export function paintLensShade(lens: Lens, venue: Venue): void {
  const { context } = lens;
  const { width, height } = context.canvas;
  const shade = context.createRadialGradient(
    width / 2,
    height * 0.52,
    height * 0.45,
    width / 2,
    height * 0.52,
    width * 0.72,
  );
  shade.addColorStop(0, 'rgba(0,0,0,0)');
  shade.addColorStop(1, 'rgba(6,10,16,0.12)');
  context.fillStyle = venue.warm;
  context.fillRect(0, 0, width, height);
  context.fillStyle = shade;
  context.fillRect(0, 0, width, height);
}
