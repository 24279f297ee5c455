import type { Point3 } from '../field-measure.ts';
import { seen, type Lens } from './lens.ts';
import type { Skeleton } from './skeleton.ts';
import type { Kit, Venue } from './venue.ts';

/** What one figure looks like, apart from how it moves. */
export type Look = {
  readonly kit: Kit;
  readonly number: string;
  readonly skin: string;
  readonly bulk: number;
  readonly sleeves: boolean;
  readonly gloves: string;
};

type Dot = { readonly x: number; readonly y: number; readonly r: number; readonly depth: number };

function dot(lens: Lens, point: Point3, radius: number): Dot | undefined {
  const at = seen(lens, point);
  return at ? { x: at.x, y: at.y, r: Math.max(0.7, radius * at.scale), depth: at.depth } : undefined;
}

function traceLimb(context: CanvasRenderingContext2D, a: Dot, b: Dot): void {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const long = Math.hypot(dx, dy);
  const nx = long < 0.01 ? 0 : -dy / long;
  const ny = long < 0.01 ? 0 : dx / long;
  const angle = Math.atan2(ny, nx);
  context.moveTo(a.x + nx * a.r, a.y + ny * a.r);
  context.arc(a.x, a.y, a.r, angle, angle + Math.PI);
  context.arc(b.x, b.y, b.r, angle + Math.PI, angle + Math.PI * 2);
  context.closePath();
}

const shades = new Map<string, string>();

/** A colour made darker (below 1) or lighter (above 1). */
export function shaded(colour: string, by: number): string {
  const key = `${colour}${by}`;
  const kept = shades.get(key);
  if (kept) return kept;
  const channels = [1, 3, 5].map((at) => {
    const value = Number.parseInt(colour.slice(at, at + 2), 16);
    const moved = by <= 1 ? value * by : value + (255 - value) * (by - 1);
    return Math.round(Math.min(255, moved)).toString(16).padStart(2, '0');
  });
  const made = `#${channels.join('')}`;
  shades.set(key, made);
  return made;
}

type Part = { readonly depth: number; readonly paint: () => void };

/** Adds a figure's shadow to the current path: every limb laid on the grass along the sun. */
export function traceShadow(lens: Lens, body: Skeleton, venue: Venue): void {
  const [sx, sy] = venue.sun;
  const drop = (point: Point3): Point3 => [point[0] + sx * point[2], point[1] + sy * point[2], 0];
  const limb = (from: Point3, to: Point3, wide: number): void => {
    const a = dot(lens, drop(from), wide);
    const b = dot(lens, drop(to), wide);
    if (a && b) traceLimb(lens.context, a, b);
  };
  for (const side of [0, 1] as const) {
    limb(body.hips[side], body.knees[side], 0.12);
    limb(body.knees[side], body.ankles[side], 0.09);
    limb(body.ankles[side], body.toes[side], 0.07);
    limb(body.shoulders[side], body.elbows[side], 0.08);
    limb(body.elbows[side], body.hands[side], 0.06);
  }
  limb(body.pelvis, body.chest, 0.21);
  limb(body.shoulders[0], body.shoulders[1], 0.14);
  limb(body.head, body.head, 0.17);
}

/** Paints one figure: limbs far to near, each lit from the sun's side, jersey with its number, helmet with its mask. */
export function paintFigure(lens: Lens, body: Skeleton, look: Look, venue: Venue): void {
  const { context } = lens;
  const { kit } = look;
  const ground = seen(lens, body.pelvis);
  if (!ground || ground.x < -90 || ground.x > 1370 || ground.y < -120 || ground.y > 860) return;
  const sunward = seen(lens, [body.pelvis[0] - venue.sun[0], body.pelvis[1] - venue.sun[1], body.pelvis[2] + 1]);
  const lightWay = Math.atan2((sunward?.y ?? 0) - ground.y, (sunward?.x ?? 0) - ground.x);
  const lx = Math.cos(lightWay);
  const ly = Math.sin(lightWay);
  const small = ground.scale < 14;
  const parts: Part[] = [];

  const limb = (from: Point3, to: Point3, wideFrom: number, wideTo: number, colour: string, nearer = 0): void => {
    const a = dot(lens, from, wideFrom);
    const b = dot(lens, to, wideTo);
    if (!a || !b) return;
    parts.push({
      depth: (a.depth + b.depth) / 2 - nearer,
      paint: () => {
        context.fillStyle = shaded(colour, 0.66);
        context.beginPath();
        traceLimb(context, a, b);
        context.fill();
        if (small) return;
        context.fillStyle = colour;
        context.beginPath();
        traceLimb(
          context,
          { ...a, x: a.x + lx * a.r * 0.24, y: a.y + ly * a.r * 0.24, r: a.r * 0.77 },
          { ...b, x: b.x + lx * b.r * 0.24, y: b.y + ly * b.r * 0.24, r: b.r * 0.77 },
        );
        context.fill();
      },
    });
  };

  for (const side of [0, 1] as const) {
    limb(body.hips[side], body.knees[side], 0.155 * look.bulk, 0.105, kit.pants);
    limb(body.knees[side], body.ankles[side], 0.1, 0.068, kit.sock, 0.01);
    limb(body.ankles[side], body.toes[side], 0.07, 0.062, kit.shoe, 0.02);
    const sleeve: Point3 = [
      body.shoulders[side][0] + (body.elbows[side][0] - body.shoulders[side][0]) * 0.62,
      body.shoulders[side][1] + (body.elbows[side][1] - body.shoulders[side][1]) * 0.62,
      body.shoulders[side][2] + (body.elbows[side][2] - body.shoulders[side][2]) * 0.62,
    ];
    limb(body.shoulders[side], body.elbows[side], 0.085, 0.07, look.skin, 0.02);
    limb(body.shoulders[side], sleeve, 0.125 * look.bulk, 0.095, look.sleeves ? kit.trim : kit.jersey, 0.03);
    limb(body.elbows[side], body.hands[side], 0.07, 0.052, look.skin, 0.04);
    limb(body.hands[side], body.hands[side], 0.068, 0.068, look.gloves, 0.06);
  }
  torso(lens, body, look, parts, [lx, ly], small);
  helmet(lens, body, look, parts, [lx, ly], small);
  parts.sort((a, b) => b.depth - a.depth);
  for (const part of parts) part.paint();
}

function torso(
  lens: Lens,
  body: Skeleton,
  look: Look,
  parts: Part[],
  light: readonly [number, number],
  small: boolean,
): void {
  const { context } = lens;
  const { kit } = look;
  const seat = dot(lens, body.pelvis, 0.185 * look.bulk);
  const waist = dot(lens, body.waist, 0.18 * look.bulk);
  const chest = dot(lens, body.chest, 0.235 * look.bulk);
  const left = dot(lens, body.shoulders[0], 0.14);
  const right = dot(lens, body.shoulders[1], 0.14);
  if (!seat || !waist || !chest || !left || !right) return;
  const pads = (shift: number, shrink: number): void => {
    const move = (d: Dot): Dot => ({
      ...d,
      x: d.x + light[0] * d.r * shift,
      y: d.y + light[1] * d.r * shift,
      r: d.r * shrink,
    });
    traceLimb(context, move(waist), move(chest));
    traceLimb(context, move(left), move(right));
    const hull = [move(left), move(right), move(waist)];
    const [a, b, c] = hull;
    if (!a || !b || !c) return;
    const turn = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
    const order = turn > 0 ? [a, b, c] : [a, c, b];
    order.forEach((corner, at) => (at === 0 ? context.moveTo(corner.x, corner.y) : context.lineTo(corner.x, corner.y)));
    context.closePath();
  };
  parts.push({
    depth: chest.depth + 0.005,
    paint: () => {
      context.fillStyle = shaded(kit.pants, 0.72);
      context.beginPath();
      traceLimb(context, seat, waist);
      context.fill();
      context.fillStyle = shaded(kit.jersey, 0.66);
      context.beginPath();
      pads(0, 1);
      context.fill();
      if (small) return;
      context.fillStyle = kit.jersey;
      context.beginPath();
      pads(0.2, 0.82);
      context.fill();
      paintNumber(lens, body, look);
    },
  });
}

function paintNumber(lens: Lens, body: Skeleton, look: Look): void {
  const { context } = lens;
  const { at } = lens.camera;
  const toCamera: Point3 = [at[0] - body.chest[0], at[1] - body.chest[1], at[2] - body.chest[2]];
  const facing = toCamera[0] * body.front[0] + toCamera[1] * body.front[1] + toCamera[2] * body.front[2];
  const front = facing > 0;
  const out = front ? 0.2 : -0.2;
  const centre: Point3 = [
    body.chest[0] + body.front[0] * out,
    body.chest[1] + body.front[1] * out,
    body.chest[2] + body.front[2] * out - 0.03,
  ];
  const middle = seen(lens, centre);
  const across = seen(lens, [centre[0] + body.right[0], centre[1] + body.right[1], centre[2] + body.right[2]]);
  const down = seen(lens, [centre[0] - body.spine[0], centre[1] - body.spine[1], centre[2] - body.spine[2]]);
  if (!middle || !across || !down || middle.scale < 15) return;
  const flip = front ? -1 : 1;
  const ax = (across.x - middle.x) * flip;
  const ay = (across.y - middle.y) * flip;
  const bx = down.x - middle.x;
  const by = down.y - middle.y;
  if (Math.abs(ax * by - ay * bx) < middle.scale * middle.scale * 0.22) return;
  context.save();
  context.transform(ax, ay, bx, by, middle.x, middle.y);
  context.scale(0.01, 0.01);
  context.fillStyle = look.kit.numerals;
  context.font = '700 31px "IBM Plex Sans Condensed", sans-serif';
  context.textAlign = 'center';
  context.textBaseline = 'middle';
  context.fillText(look.number, 0, 0);
  context.restore();
}

function helmet(
  lens: Lens,
  body: Skeleton,
  look: Look,
  parts: Part[],
  light: readonly [number, number],
  small: boolean,
): void {
  const { context } = lens;
  const { kit } = look;
  const shell = dot(lens, body.head, 0.168);
  if (!shell) return;
  const ahead: Point3 = [body.right[1], -body.right[0], 0];
  const mask = dot(lens, [body.head[0] + ahead[0] * 0.13, body.head[1] + ahead[1] * 0.13, body.head[2] - 0.06], 0.09);
  const crown = dot(lens, [body.head[0], body.head[1], body.head[2] + 0.15], 0.035);
  const brow = dot(lens, [body.head[0] + ahead[0] * 0.16, body.head[1] + ahead[1] * 0.16, body.head[2] + 0.04], 0.035);
  const nape = dot(lens, [body.head[0] - ahead[0] * 0.16, body.head[1] - ahead[1] * 0.16, body.head[2] + 0.02], 0.035);
  parts.push({
    depth: shell.depth - 0.12,
    paint: () => {
      const maskFirst = (mask?.depth ?? 0) > shell.depth;
      const cage = (): void => {
        if (!mask || small) return;
        context.fillStyle = shaded(look.skin, 0.6);
        context.beginPath();
        context.arc(mask.x, mask.y, mask.r, 0, Math.PI * 2);
        context.fill();
        context.strokeStyle = kit.mask;
        context.lineWidth = Math.max(0.7, mask.r * 0.28);
        context.beginPath();
        context.arc(mask.x, mask.y, mask.r * 0.8, 0, Math.PI * 2);
        context.moveTo(mask.x - mask.r, mask.y);
        context.lineTo(mask.x + mask.r, mask.y);
        context.stroke();
      };
      if (maskFirst) cage();
      context.fillStyle = shaded(kit.helmet, 0.66);
      context.beginPath();
      context.arc(shell.x, shell.y, shell.r, 0, Math.PI * 2);
      context.fill();
      context.fillStyle = kit.helmet;
      context.beginPath();
      context.arc(
        shell.x + light[0] * shell.r * 0.16,
        shell.y + light[1] * shell.r * 0.16,
        shell.r * 0.84,
        0,
        Math.PI * 2,
      );
      context.fill();
      if (!small && crown && brow && nape) {
        context.strokeStyle = kit.stripe;
        context.lineWidth = Math.max(0.8, shell.r * 0.26);
        context.beginPath();
        context.moveTo(nape.x, nape.y);
        context.quadraticCurveTo(crown.x * 1.0, crown.y, brow.x, brow.y);
        context.stroke();
        context.fillStyle = 'rgba(255,255,255,0.38)';
        context.beginPath();
        context.arc(
          shell.x + light[0] * shell.r * 0.45,
          shell.y + light[1] * shell.r * 0.45,
          shell.r * 0.22,
          0,
          Math.PI * 2,
        );
        context.fill();
      }
      if (!maskFirst) cage();
    },
  });
}

/** Paints the ball. */
export function paintBall(lens: Lens, at: Point3, venue: Venue): void {
  const place = dot(lens, at, 0.1);
  const shade = dot(lens, [at[0] + venue.sun[0] * at[2], at[1] + venue.sun[1] * at[2], 0], 0.09);
  if (!place || !shade) return;
  const { context } = lens;
  context.fillStyle = `rgba(10,22,14,${venue.shadow})`;
  context.beginPath();
  context.ellipse(shade.x, shade.y, shade.r * 1.4, shade.r * 0.6, 0, 0, Math.PI * 2);
  context.fill();
  context.fillStyle = '#6e3d22';
  context.beginPath();
  context.ellipse(place.x, place.y, place.r * 1.5, place.r, 0.15, 0, Math.PI * 2);
  context.fill();
  context.fillStyle = '#a9683f';
  context.beginPath();
  context.ellipse(
    place.x - place.r * 0.2,
    place.y - place.r * 0.3,
    place.r * 0.9,
    place.r * 0.45,
    0.15,
    0,
    Math.PI * 2,
  );
  context.fill();
}
