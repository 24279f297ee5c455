import { rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseRange, serveFile } from '../../../src/host/films/ranges.ts';
import { ownFolder } from '../small-study.ts';

const size = 10_000;

// The examples for a representation of 10,000 bytes are those of RFC 9110, section 14.1.2.
describe('a byte range by RFC 9110, section 14', () => {
  test.each([
    ['bytes=0-499', { start: 0, end: 499 }],
    ['bytes=500-999', { start: 500, end: 999 }],
    ['bytes=-500', { start: 9500, end: 9999 }],
    ['bytes=9500-', { start: 9500, end: 9999 }],
    ['bytes=9999-', { start: 9999, end: 9999 }],
    ['bytes=0-999999', { start: 0, end: 9999 }],
    ['bytes=-20000', { start: 0, end: 9999 }],
    ['Bytes=0-0', { start: 0, end: 0 }],
    ['  bytes=0-0 ', { start: 0, end: 0 }],
  ])('%s is read', (header, range) => {
    expect(parseRange(header, size)).toEqual(range);
  });

  test.each(['bytes=10000-', 'bytes=10000-10001', 'bytes=-0', 'bytes=500-499', 'bytes=-'])(
    '%s fits nowhere',
    (header) => {
      expect(parseRange(header, size)).toBe('bad');
    },
  );

  test.each([
    'bytes=0-0,-1',
    'lines=0-5',
    'bytes 0-5',
    'bytes=a-b',
    'bytes=0x10-',
    'bytes=1e3-',
    'bytes=--5',
    'bytes=5',
    '',
    `bytes=${'9'.repeat(40)}-`,
  ])('%s may be passed over, and is', (header) => {
    expect(parseRange(header, size)).toBeNull();
  });

  test('whatever is asked, what is given lies within the file', () => {
    const number = fc.oneof(fc.nat(30), fc.nat(), fc.constant(''), fc.maxSafeNat());
    fc.assert(
      fc.property(
        fc.nat(40),
        fc.oneof(
          fc.tuple(number, number).map(([a, b]) => `bytes=${a}-${b}`),
          fc.string(),
        ),
        (length, header) => {
          const range = parseRange(header, length);
          if (range === null || range === 'bad') return;
          expect(range.start).toBeGreaterThanOrEqual(0);
          expect(range.end).toBeGreaterThanOrEqual(range.start);
          expect(range.end).toBeLessThan(length);
        },
      ),
    );
  });
});

describe('a file served', () => {
  const bytes = Buffer.from(Array.from({ length: 600_001 }, (_, at) => at % 251));
  const film = (content: Uint8Array = bytes): string => {
    const path = join(ownFolder(), 'film.mp4');
    writeFileSync(path, content);
    return path;
  };
  const ask = (path: string, headers: Record<string, string> = {}, method = 'GET') =>
    serveFile(path, new Request('http://host/film/1', { method, headers }));
  const bodyOf = async (answer: Response): Promise<Buffer> => Buffer.from(await answer.arrayBuffer());

  test('whole has its length, kind and a mark of its state', async () => {
    const answer = ask(film());
    expect([
      answer.status,
      answer.headers.get('content-length'),
      answer.headers.get('content-type'),
      answer.headers.get('accept-ranges'),
    ]).toEqual([200, '600001', 'video/mp4', 'bytes']);
    expect(answer.headers.get('etag')).toMatch(/^"[0-9a-f]+-[0-9a-f]+"$/);
    expect((await bodyOf(answer)).equals(bytes)).toBe(true);
  });

  test('in part is those bytes and says which of how many', async () => {
    const path = film();
    await fc.assert(
      fc.asyncProperty(fc.nat(600_000), fc.nat(300_000), async (start, length) => {
        const end = Math.min(600_000, start + length);
        const answer = ask(path, { range: `bytes=${start}-${start + length}` });
        expect([answer.status, answer.headers.get('content-range'), answer.headers.get('content-length')]).toEqual([
          206,
          `bytes ${start}-${end}/600001`,
          String(end - start + 1),
        ]);
        expect((await bodyOf(answer)).equals(bytes.subarray(start, end + 1))).toBe(true);
      }),
      { numRuns: 30 },
    );
  });

  test('past its end is 416 with its length', async () => {
    const answer = ask(film(), { range: 'bytes=600001-' });
    expect([answer.status, answer.headers.get('content-range'), (await bodyOf(answer)).length]).toEqual([
      416,
      'bytes */600001',
      0,
    ]);
  });

  test('asked of an older state of it (If-Range) is whole', async () => {
    const path = film();
    const etag = ask(path).headers.get('etag') ?? '';
    expect(ask(path, { range: 'bytes=0-9', 'if-range': etag }).status).toBe(206);
    for (const other of ['"old"', `W/${etag}`, 'Wed, 25 Nov 2026 08:00:00 GMT'])
      expect(ask(path, { range: 'bytes=0-9', 'if-range': other }).status).toBe(200);
    truncateSync(path, 1000);
    expect(ask(path, { range: 'bytes=0-9', 'if-range': etag }).status).toBe(200);
  });

  test('by HEAD has no body, and no range, which is defined for GET alone', async () => {
    const answer = ask(film(), { range: 'bytes=0-9' }, 'HEAD');
    expect([
      answer.status,
      answer.headers.get('content-length'),
      answer.headers.get('content-range'),
      (await bodyOf(answer)).length,
    ]).toEqual([200, '600001', null, 0]);
  });

  test('empty is an empty answer, and no range of it fits', async () => {
    const path = film(new Uint8Array());
    expect([ask(path).status, ask(path).headers.get('content-length')]).toEqual([200, '0']);
    expect(ask(path, { range: 'bytes=0-' }).status).toBe(416);
  });

  test('stops being read when the one who asked goes away', async () => {
    const path = film();
    const away = new AbortController();
    const answer = serveFile(path, new Request('http://host/film/1', { signal: away.signal }));
    const reader = answer.body?.getReader();
    await reader?.read();
    away.abort();
    await expect(async () => {
      for (;;) if ((await reader?.read())?.done !== false) return;
    }).rejects.toThrow();
    rmSync(path);
  });
});
