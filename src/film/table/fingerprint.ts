import type { FilmBytes } from './film-bytes.ts';

const edge = 64 * 1024;
const sample = 16 * 1024;
const samples = 8;

/** The stretches of a file of `size` bytes that its fingerprint reads: all of a small one, else head, samples, tail. */
function stretches(size: number): readonly (readonly [number, number])[] {
  if (size <= 2 * edge + samples * sample) return size === 0 ? [] : [[0, size]];
  const room = size - 2 * edge - sample;
  const middles = Array.from({ length: samples }, (_, place) => {
    const start = edge + Math.floor((room * (place + 0.5)) / samples);
    return [start, start + sample] as const;
  });
  return [[0, edge], ...middles, [size - edge, size]];
}

/**
 * What tells one film file from another wherever it lies and whatever it is called: `f1-` and 64 hexadecimal digits,
 * the SHA-256 of its size, its first and last 64 KiB and eight samples of 16 KiB spread between (of all of it, up to
 * 256 KiB). Reads at most 256 KiB of any file. Rejects when the bytes can't be read.
 */
export async function fingerprintOf(bytes: FilmBytes): Promise<string> {
  const parts: Uint8Array[] = [new TextEncoder().encode(`creasebook film 1 ${bytes.size}\n`)];
  for (const [start, end] of stretches(bytes.size)) parts.push(await bytes.read(start, end));
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', all));
  return `f1-${Array.from(hash, (byte) => byte.toString(16).padStart(2, '0')).join('')}`;
}
