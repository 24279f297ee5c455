import { FIELD, type Point3 } from '../field-measure.ts';
import { seeded } from '../seed.ts';
import { addPolygon, fillPolygons, flat, seen, type Lens } from './lens.ts';
import type { Venue } from './venue.ts';

const CHALK = 'rgba(240,238,226,0.93)';

/** Strokes of painted numerals on a 4 by 6 grid (feet), bottom left origin: thin rectangles and slanted quads. */
const STROKE = 0.95;
const NUMERALS: Record<string, readonly (readonly [number, number, number, number])[]> = {
  '0': [
    [0, 0, STROKE, 6],
    [4 - STROKE, 0, 4, 6],
    [0, 0, 4, STROKE],
    [0, 6 - STROKE, 4, 6],
  ],
  '1': [
    [1.55, 0, 1.55 + STROKE * 1.05, 6],
    [0.6, 0, 3.5, STROKE * 0.8],
    [0.7, 4.7, 1.6, 5.5],
  ],
  '2': [
    [0, 6 - STROKE, 4, 6],
    [4 - STROKE, 2.6, 4, 6],
    [0, 2.55, 4, 2.55 + STROKE],
    [0, 0, STROKE, 3.4],
    [0, 0, 4, STROKE],
  ],
  '3': [
    [0, 6 - STROKE, 4, 6],
    [4 - STROKE, 0, 4, 6],
    [0.9, 2.55, 4, 2.55 + STROKE],
    [0, 0, 4, STROKE],
  ],
  '4': [
    [4 - STROKE * 1.4, 0, 4 - STROKE * 0.4, 6],
    [0, 1.9, 4, 1.9 + STROKE],
    [0, 1.9, STROKE, 6],
  ],
  '5': [
    [0, 6 - STROKE, 4, 6],
    [0, 2.6, STROKE, 6],
    [0, 2.55, 4, 2.55 + STROKE],
    [4 - STROKE, 0, 4, 3.4],
    [0, 0, 4, STROKE],
  ],
};

function numeral(digit: string, left: number, far: boolean, x: number): Point3[][] {
  const strokes = NUMERALS[digit] ?? [];
  const foot = (across: number, up: number): Point3 =>
    far
      ? [x - (left + across / 3), FIELD.numberBottom + up / 3, 0]
      : [x + (left + across / 3), FIELD.width - FIELD.numberBottom - up / 3, 0];
  return strokes.map(([a, b, c, d]) => [foot(a, b), foot(c, b), foot(c, d), foot(a, d)]);
}

function numbers(): Point3[][] {
  const all: Point3[][] = [];
  for (let line = 10; line <= 90; line += 10) {
    const shown = String(line <= 50 ? line : 100 - line);
    for (const far of [false, true]) {
      const gap = 0.28;
      all.push(...numeral(shown[0] ?? '', -gap - FIELD.numberWidth, far, line));
      all.push(...numeral(shown[1] ?? '', gap, far, line));
      if (line !== 50) {
        const toLeft = line < 50 !== far;
        const tip = toLeft ? -gap - FIELD.numberWidth - 0.85 : gap + FIELD.numberWidth + 0.85;
        const base = toLeft ? tip + 0.55 : tip - 0.55;
        const at = (across: number, up: number): Point3 =>
          far ? [line - across, FIELD.numberBottom + up, 0] : [line + across, FIELD.width - FIELD.numberBottom - up, 0];
        all.push([at(tip, 1.45), at(base, 1.25), at(base, 1.65)]);
      }
    }
  }
  return all;
}

function lines(): Point3[][] {
  const half = FIELD.lineWidth / 2;
  const all: Point3[][] = [];
  const inset = FIELD.lineWidth;
  for (let x = 5; x <= 95; x += 5) all.push(flat(x - half, inset, x + half, FIELD.width - inset));
  for (const x of [0, 100]) {
    const wide = FIELD.goalLineWidth / 2;
    all.push(flat(x - wide, 0, x + wide, FIELD.width));
  }
  for (let x = 1; x < 100; x += 1) {
    if (x % 5 === 0) {
      for (const y of [FIELD.leftHash, FIELD.rightHash])
        all.push(flat(x - FIELD.shortMark / 2, y - half, x + FIELD.shortMark / 2, y + half));
      continue;
    }
    all.push(flat(x - half, inset, x + half, inset + FIELD.shortMark));
    all.push(flat(x - half, FIELD.width - inset - FIELD.shortMark, x + half, FIELD.width - inset));
    all.push(flat(x - half, FIELD.leftHash - FIELD.shortMark, x + half, FIELD.leftHash));
    all.push(flat(x - half, FIELD.rightHash, x + half, FIELD.rightHash + FIELD.shortMark));
  }
  for (const x of [3, 97]) all.push(flat(x - half, FIELD.width / 2 - 0.5, x + half, FIELD.width / 2 + 0.5));
  return all;
}

function border(): Point3[][] {
  const out = FIELD.border;
  const [west, east] = [-FIELD.endZone, FIELD.length + FIELD.endZone];
  return [
    flat(west - out, -out, east + out, 0),
    flat(west - out, FIELD.width, east + out, FIELD.width + out),
    flat(west - out, 0, west, FIELD.width),
    flat(east, 0, east + out, FIELD.width),
  ];
}

const LINES = lines();
const NUMBERS = numbers();
const BORDER = border();

function softPatch(lens: Lens, x: number, y: number, wide: number, colour: string): void {
  const at = seen(lens, [x, y, 0]);
  const behind = seen(lens, [x, y - wide, 0]);
  if (!at || !behind) return;
  const flatness = Math.max(0.12, Math.abs(behind.y - at.y) / (wide * at.scale));
  const radius = wide * at.scale;
  if (at.x < -radius || at.x > lens.context.canvas.width + radius) return;
  const { context } = lens;
  context.save();
  context.translate(at.x, at.y);
  context.scale(1, flatness);
  const shade = context.createRadialGradient(0, 0, 0, 0, 0, radius);
  shade.addColorStop(0, colour);
  shade.addColorStop(1, colour.replace(/[\d.]+\)$/, '0)'));
  context.fillStyle = shade;
  context.fillRect(-radius, -radius, radius * 2, radius * 2);
  context.restore();
}

type Patch = { readonly x: number; readonly y: number; readonly wide: number; readonly dark: boolean };

const WEAR = ((): Patch[] => {
  const next = seeded(23);
  return Array.from({ length: 34 }, () => ({
    x: 4 + next() * 92,
    y: FIELD.width / 2 + (next() + next() - 1) * 13,
    wide: 2.2 + next() * 4.2,
    dark: next() < 0.45,
  }));
})();

function paintCrest(lens: Lens, venue: Venue): void {
  const y = FIELD.width / 2;
  const peak = (x: number, size: number, colour: string): void => {
    fillPolygons(lens, colour, [
      [
        [x - size, y + size * 0.62, 0],
        [x, y - size * 0.75, 0],
        [x + size, y + size * 0.62, 0],
        [x + size * 0.56, y + size * 0.62, 0],
        [x, y - size * 0.02, 0],
        [x - size * 0.56, y + size * 0.62, 0],
      ],
    ]);
  };
  if (venue.crest === 'ridge') {
    peak(50, 5.4, 'rgba(240,236,224,0.85)');
    peak(50, 4.9, venue.paint);
    peak(48.2, 2.6, 'rgba(233,176,72,0.9)');
    return;
  }
  for (const [shift, colour] of [
    [-1.7, venue.paint],
    [0.1, 'rgba(238,238,232,0.85)'],
    [1.9, venue.paint],
  ] as const) {
    const wave: Point3[] = [];
    const back: Point3[] = [];
    for (let at = 0; at <= 16; at += 1) {
      const x = 44.6 + (at / 16) * 10.8;
      const swell = Math.sin((at / 16) * Math.PI * 4) * 0.62;
      wave.push([x, y + shift + swell - 0.5, 0]);
      back.unshift([x, y + shift + swell + 0.5, 0]);
    }
    fillPolygons(lens, colour, [[...wave, ...back]]);
  }
}

function paintEndZones(lens: Lens, venue: Venue): void {
  for (const [from, way] of [
    [-FIELD.endZone, 1],
    [FIELD.length, -1],
  ] as const) {
    fillPolygons(lens, venue.paint, [flat(from, 0, from + FIELD.endZone, FIELD.width)]);
    const stripes: Point3[][] = [];
    for (let y = 2.2; y < FIELD.width - 6; y += 5) {
      const lean = way * 1.9;
      stripes.push([
        [from + 2.4, y + 1.9 - lean, 0],
        [from + 7.6, y + 1.9 + lean, 0],
        [from + 7.6, y + 3.3 + lean, 0],
        [from + 2.4, y + 3.3 - lean, 0],
      ]);
    }
    fillPolygons(lens, venue.paintLight, stripes);
  }
}

/** Paints the grass in mown bands, every line to measure, numbers, border, crest and end zones. */
export function paintGround(lens: Lens, venue: Venue): void {
  const { context } = lens;
  const { width, height } = context.canvas;
  context.fillStyle = venue.grassFar;
  context.fillRect(0, 0, width, height);
  fillPolygons(lens, venue.apron, [flat(-40, -14, 140, FIELD.width + 40)]);
  fillPolygons(lens, venue.grass, [flat(-16, -4.6, 116, FIELD.width + 8)]);
  const light: Point3[][] = [];
  for (let x = -10; x < 110; x += 10) light.push(flat(x, -2, x + 5, FIELD.width + 2));
  fillPolygons(lens, venue.grassLight, light);
  const cross: Point3[][] = [];
  for (let y = 0; y < FIELD.width; y += FIELD.width / 5) cross.push(flat(-10, y, 110, y + FIELD.width / 10));
  fillPolygons(lens, 'rgba(255,255,220,0.022)', cross);
  paintEndZones(lens, venue);
  paintCrest(lens, venue);
  for (const patch of WEAR)
    softPatch(lens, patch.x, patch.y, patch.wide, patch.dark ? 'rgba(24,52,26,0.13)' : 'rgba(152,148,84,0.14)');
  fillPolygons(lens, 'rgba(238,237,228,0.90)', BORDER);
  context.fillStyle = CHALK;
  context.beginPath();
  for (const polygon of LINES) addPolygon(lens, polygon);
  context.fill();
  context.beginPath();
  for (const polygon of NUMBERS) addPolygon(lens, polygon);
  context.fill();
}
