/**
 * Seeded randomness: an own 32-bit integer generator, and draws made from its integers in a fixed order with additions,
 * multiplications, divisions and square roots only, so that the same seed gives the same bits on every machine.
 * Own code because draws must stay bit-equal for as long as studies are kept, whatever a package changes.
 */
import { portableExp, portableLog } from './portable-log-exp.ts';

/** A stream of draws; every call moves it on. Two streams of one seed give the same numbers in the same order. */
export type Random = {
  /** A whole number from 0 to 4,294,967,295, each as likely. Takes one integer. */
  readonly uint32: () => number;
  /** A number in [0, 1) with 53 random bits. Takes two integers. */
  readonly uniform: () => number;
  /** A whole number from 0 to limit - 1, each exactly as likely. Throws RangeError unless limit is 1 to 2^32. */
  readonly below: (limit: number) => number;
  /** A standard normal draw (mean 0, variance 1). */
  readonly normal: () => number;
  /** A gamma draw of the given shape (above 0) and scale 1: mean and variance equal the shape. Throws RangeError. */
  readonly gamma: (shape: number) => number;
};

/**
 * A stream from a seed: any whole number from 0 to 2^53 - 1. Throws RangeError on another seed. The four words of
 * xoshiro's state are successive outputs of a counter stepped by 0x9e3779b9 and mixed by MurmurHash3's finaliser, which
 * cannot all be 0.
 */
export function randomFrom(seed: number): Random {
  if (!(Number.isSafeInteger(seed) && seed >= 0)) {
    throw new RangeError(`a seed wants a whole number from 0 to 2^53 - 1, got ${seed}`);
  }
  let counter = (seed >>> 0) ^ mix32(Math.floor(seed / 2 ** 32));
  const next = () => mix32((counter = (counter + 0x9e3779b9) | 0));
  return randomFromState([next(), next(), next(), next()]);
}

/** MurmurHash3's 32-bit finaliser (Appleby 2011): a bijection that sends 0 to 0. */
function mix32(word: number): number {
  let mixed = word | 0;
  mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
  mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
  return (mixed ^ (mixed >>> 16)) >>> 0;
}

/**
 * A stream from the generator's own state: four whole numbers of 32 bits, not all 0 (throws RangeError). For checking
 * against published outputs; programs use randomFrom.
 * Sources: xoshiro128** 1.1 (Blackman & Vigna 2021, ACM Trans. Math. Softw. 47:36); normal draws by the ziggurat of
 * Marsaglia & Tsang 2000 (J. Stat. Softw. 5(8)) with Doornik's independent block choice (2005); gamma draws by
 * Marsaglia & Tsang 2000 (ACM Trans. Math. Softw. 26:363-372). All three citations from memory.
 */
export function randomFromState(state: readonly [number, number, number, number]): Random {
  const s = Uint32Array.from(state);
  if (s.every((word) => word === 0))
    throw new RangeError('a state wants four words that are not all 0, got 0, 0, 0, 0');

  function uint32(): number {
    const s1 = s[1] ?? 0;
    const product = Math.imul(s1, 5);
    const out = Math.imul((product << 7) | (product >>> 25), 9) >>> 0;
    const s2 = (s[2] ?? 0) ^ (s[0] ?? 0);
    const s3 = (s[3] ?? 0) ^ s1;
    s[1] = s1 ^ s2;
    s[0] = (s[0] ?? 0) ^ s3;
    s[2] = s2 ^ (s1 << 9);
    s[3] = (s3 << 11) | (s3 >>> 21);
    return out;
  }

  function uniform(): number {
    const upper = uint32() >>> 5;
    return (upper * 67108864 + (uint32() >>> 6)) / 9007199254740992;
  }

  /** A uniform in (0, 1), for logarithms. */
  function open(): number {
    let draw = uniform();
    while (draw === 0) draw = uniform();
    return draw;
  }

  function below(limit: number): number {
    if (!(Number.isInteger(limit) && limit >= 1 && limit <= 4294967296)) {
      throw new RangeError(`a limit wants a whole number from 1 to 2^32, got ${limit}`);
    }
    const fair = 4294967296 - (4294967296 % limit);
    let draw = uint32();
    while (draw >= fair) draw = uint32();
    return draw % limit;
  }

  function normal(): number {
    for (;;) {
      const first = uint32();
      const block = first & 127;
      // 24 upper bits of the first integer and 29 of the second: 53 bits, none of them used to choose the block.
      const u = ((first >>> 8) * 536870912 + (uint32() >>> 3)) / 4503599627370496 - 1;
      const edge = edges[block] ?? 0;
      if (Math.abs(u) < (ratios[block] ?? 0)) return u * edge;
      if (block === 0) {
        const beyond = tail();
        return u < 0 ? -beyond : beyond;
      }
      const x = u * edge;
      const inner = edges[block + 1] ?? 0;
      const outerHeight = portableExp(-0.5 * (edge * edge - x * x));
      const innerHeight = portableExp(-0.5 * (inner * inner - x * x));
      if (outerHeight + uniform() * (innerHeight - outerHeight) < 1) return x;
    }
  }

  /** A normal draw beyond the last block: Marsaglia's method. */
  function tail(): number {
    for (;;) {
      const x = -portableLog(open()) / lastEdge;
      if (-2 * portableLog(open()) >= x * x) return lastEdge + x;
    }
  }

  function gamma(shape: number): number {
    if (!(shape > 0 && shape < Infinity)) throw new RangeError(`a gamma shape wants a number above 0, got ${shape}`);
    if (shape < 1) return gamma(shape + 1) * portableExp(portableLog(open()) / shape);
    const d = shape - 1 / 3;
    const c = 1 / Math.sqrt(9 * d);
    for (;;) {
      const x = normal();
      const root = 1 + c * x;
      if (root <= 0) continue;
      const v = root * root * root;
      const u = open();
      if (u < 1 - 0.0331 * x * x * x * x) return d * v;
      if (portableLog(u) < 0.5 * x * x + d * (1 - v + portableLog(v))) return d * v;
    }
  }

  return { uint32, uniform, below, normal, gamma };
}

const lastEdge = 3.442619855899;
const blockArea = 9.91256303526217e-3;
const edges = new Float64Array(129);
const ratios = new Float64Array(128);
{
  let height = portableExp(-0.5 * lastEdge * lastEdge);
  edges[0] = blockArea / height;
  edges[1] = lastEdge;
  for (let block = 2; block < 128; block += 1) {
    const edge = Math.sqrt(-2 * portableLog(blockArea / (edges[block - 1] ?? 1) + height));
    edges[block] = edge;
    height = portableExp(-0.5 * edge * edge);
  }
  for (let block = 0; block < 128; block += 1) ratios[block] = (edges[block + 1] ?? 0) / (edges[block] ?? 1);
}
