import fc from 'fast-check';
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { crc32 } from '../../src/film/table/crc32.ts';
import type { FilmBytes } from '../../src/film/table/film-bytes.ts';
import { fingerprintOf } from '../../src/film/table/fingerprint.ts';

function bytesOf(content: Uint8Array): FilmBytes & { readonly reads: () => number } {
  let read = 0;
  return {
    size: content.length,
    read: (start, end) => {
      read += end - start;
      return Promise.resolve(content.subarray(start, end));
    },
    reads: () => read,
  };
}

/** A made-up film of a length: bytes that differ everywhere. */
function content(length: number): Uint8Array {
  return new Uint8Array(length).map((_, at) => Math.imul(at + 1, 2654435761) >>> 24);
}

describe('a film’s fingerprint', () => {
  it('reads at most 256 KiB of a large file and tells a change at its head, tail and size', async () => {
    const film = content(5_000_000);
    const watched = bytesOf(film);
    const print = await fingerprintOf(watched);
    expect(print).toMatch(/^f1-[0-9a-f]{64}$/);
    expect(watched.reads()).toBeLessThanOrEqual(256 * 1024);
    expect(await fingerprintOf(bytesOf(film.slice()))).toBe(print);
    for (const place of [0, 65_535, 4_999_999]) {
      const other = film.slice();
      other[place] = (other[place] ?? 0) ^ 1;
      expect(await fingerprintOf(bytesOf(other))).not.toBe(print);
    }
    expect(await fingerprintOf(bytesOf(film.subarray(0, 4_999_999)))).not.toBe(print);
  });

  it('tells any change in a small file', async () => {
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ minLength: 1, maxLength: 3000 }), fc.nat(), async (film, at) => {
        const other = film.slice();
        other[at % film.length] = (other[at % film.length] ?? 0) ^ 1;
        return (await fingerprintOf(bytesOf(film))) !== (await fingerprintOf(bytesOf(other)));
      }),
      { numRuns: 40 },
    );
  });

  it('is the SHA-256 of the size line and the whole of a small file', async () => {
    const film = content(1000);
    const hash = createHash('sha256').update('creasebook film 1 1000\n').update(film).digest('hex');
    expect(await fingerprintOf(bytesOf(film))).toBe(`f1-${hash}`);
  });
});

describe('CRC-32', () => {
  // The check value every catalogue of CRCs prints for the digits 1 to 9 (ISO 3309).
  it('gives the catalogue’s check value', () => {
    expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
  });
});
