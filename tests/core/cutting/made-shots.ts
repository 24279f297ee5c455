/** Shots drawn for the cutting tests: a field from afar and near, cards, textures; all from a seed. */
import { mulberry } from './mulberry.ts';

export const shotSize = { width: 160, height: 90 } as const;
const { width, height } = shotSize;
/** Lengths below are written for a picture of 256 pixels. */
const scale = width / 256;
const half = { width: width / 2, height: height / 2 } as const;

/** One drawn picture: luma, then both chroma planes. */
export type Drawn = { readonly luma: Float32Array; readonly blue: Float32Array; readonly red: Float32Array };
/** Draws the picture of a shot at a time in seconds. */
export type Shot = (seconds: number) => Drawn;

export type ShotKind = 'wide' | 'tight' | 'end zone' | 'card' | 'texture' | 'crowd';

function blank(): Drawn {
  return {
    luma: new Float32Array(width * height),
    blue: new Float32Array(half.width * half.height).fill(128),
    red: new Float32Array(half.width * half.height).fill(128),
  };
}

/** A cheap fixed texture: 0 to 1 for a place, the same for the same seed, smooth over `grain` pixels. */
function texture(x: number, y: number, grain: number, seed: number): number {
  const cell = (cx: number, cy: number): number => {
    let value =
      Math.imul(cx + 374761393, 668265263) ^ Math.imul(cy + 1274126177, 2246822519) ^ Math.imul(seed, 3266489917);
    value = Math.imul(value ^ (value >>> 15), 2654435761);
    return ((value ^ (value >>> 13)) >>> 0) / 2 ** 32;
  };
  const [fx, fy] = [x / grain, y / grain];
  const [cx, cy] = [Math.floor(fx), Math.floor(fy)];
  const [tx, ty] = [fx - cx, fy - cy];
  const top = cell(cx, cy) * (1 - tx) + cell(cx + 1, cy) * tx;
  const bottom = cell(cx, cy + 1) * (1 - tx) + cell(cx + 1, cy + 1) * tx;
  return top * (1 - ty) + bottom * ty;
}

type Camera = {
  readonly x: (t: number) => number;
  readonly y: number;
  readonly zoom: number;
  readonly horizon: number;
};

function fieldShot(seed: number, camera: Camera): Shot {
  const random = mulberry(seed);
  const players = Array.from({ length: 22 }, () => ({
    x: random() * 60 + camera.x(0) - 30,
    y: random() * 20 - 10,
    vx: (random() - 0.5) * 12,
    vy: (random() - 0.5) * 6,
    tone: random() < 0.5 ? 210 : 60,
  }));
  const grass = 90 + random() * 25;
  return (t) => {
    const picture = blank();
    const left = camera.x(t) - width / 2 / camera.zoom;
    for (let y = 0; y < height; y += 1) {
      const stands = y < camera.horizon;
      for (let x = 0; x < width; x += 1) {
        const worldX = left + x / camera.zoom;
        const worldY = (y - camera.horizon) / camera.zoom + camera.y;
        let value = stands
          ? 60 + 110 * texture(worldX * 3, worldY * 3, 2, seed)
          : grass + (Math.floor(worldX / 5) % 2 === 0 ? 8 : 0) + 10 * texture(worldX * 2, worldY * 2, 3, seed);
        const line = Math.abs(worldX - Math.round(worldX / 5) * 5);
        if (!stands && line < 0.25) value = 205;
        picture.luma[y * width + x] = value;
      }
    }
    for (const player of players) {
      const px = (player.x + player.vx * Math.sin(t) - left) * camera.zoom;
      const py = camera.horizon + (12 + player.y * 0.5 + player.vy * Math.sin(t * 0.7)) * camera.zoom * 0.5;
      const size = 1.1 * camera.zoom;
      for (let y = Math.max(0, Math.floor(py - size)); y < Math.min(height, py + size); y += 1) {
        for (let x = Math.max(0, Math.floor(px - size / 2)); x < Math.min(width, px + size / 2); x += 1) {
          picture.luma[y * width + x] = player.tone;
        }
      }
    }
    for (let y = 0; y < half.height; y += 1) {
      const stands = y * 2 < camera.horizon;
      picture.blue.fill(stands ? 126 : 104, y * half.width, (y + 1) * half.width);
      picture.red.fill(stands ? 134 : 112, y * half.width, (y + 1) * half.width);
    }
    return picture;
  };
}

function cardShot(seed: number): Shot {
  const random = mulberry(seed);
  const [tone, blue, red] = [30 + random() * 60, 90 + random() * 80, 90 + random() * 80];
  const bars = Array.from({ length: 5 }, (_, bar) => ({
    top: Math.floor((18 + bar * 24) * scale),
    right: (60 + random() * 170) * scale,
  }));
  const picture = blank();
  picture.luma.fill(tone);
  picture.blue.fill(blue);
  picture.red.fill(red);
  for (const { top, right } of bars) {
    for (let y = top; y < top + 11 * scale; y += 1)
      picture.luma.fill(225, y * width + 12, y * width + Math.floor(right));
  }
  return () => picture;
}

function textureShot(seed: number, grain: number, speed: number, tone: number, range: number): Shot {
  const random = mulberry(seed);
  const [blue, red] = [100 + random() * 56, 100 + random() * 56];
  return (t) => {
    const picture = blank();
    picture.blue.fill(blue);
    picture.red.fill(red);
    for (let y = 0; y < height; y += 1) {
      for (let x = 0; x < width; x += 1)
        picture.luma[y * width + x] = tone + range * texture(x + speed * t, y, grain, seed);
    }
    return picture;
  };
}

/** A shot of a kind: its content from the seed, its camera moving at `pan` yards a second. */
export function makeShot(kind: ShotKind, seed: number, pan: number): Shot {
  const random = mulberry(seed + 99);
  const start = random() * 80;
  const x = (t: number): number => start + pan * t;
  switch (kind) {
    case 'wide':
      return fieldShot(seed, { x, y: 0, zoom: (4 + random() * 2) * scale, horizon: (20 + random() * 20) * scale });
    case 'tight':
      return fieldShot(seed, { x, y: 3, zoom: (11 + random() * 6) * scale, horizon: (4 + random() * 8) * scale });
    case 'end zone':
      return fieldShot(seed, {
        x: (t) => start + 200 + pan * 0.3 * t,
        y: 0,
        zoom: (7 + random() * 2) * scale,
        horizon: (45 + random() * 15) * scale,
      });
    case 'card':
      return cardShot(seed);
    case 'texture':
      return textureShot(seed, (20 + random() * 30) * scale, pan * 6 * scale, 30 + random() * 60, 90 + random() * 40);
    case 'crowd':
      return textureShot(seed, 3, pan * 6 * scale, 40, 150);
  }
}
