import { createReadStream, statSync } from 'node:fs';
import { extname } from 'node:path';
import { Readable } from 'node:stream';

const types: Readonly<Record<string, string>> = {
  '.mp4': 'video/mp4',
  '.m4v': 'video/mp4',
  '.mov': 'video/quicktime',
  '.webm': 'video/webm',
  '.mkv': 'video/x-matroska',
  '.ts': 'video/mp2t',
  '.mts': 'video/mp2t',
  '.m2ts': 'video/mp2t',
};

/** Reads one `bytes=a-b`, `bytes=a-` or `bytes=-n` range of a file of `size` bytes; null: no range; 'bad': none that fits. */
export function parseRange(header: string | null, size: number): { start: number; end: number } | null | 'bad' {
  if (header === null) return null;
  const match = /^bytes=(\d{0,15})-(\d{0,15})$/i.exec(header.trim());
  // Several ranges or another unit: the standard lets a server answer with the whole.
  if (match === null) return null;
  const [, first = '', last = ''] = match;
  if (first === '' && last === '') return 'bad';
  if (first === '') {
    const length = Number(last);
    return length === 0 || size === 0 ? 'bad' : { start: Math.max(0, size - length), end: size - 1 };
  }
  const start = Number(first);
  const end = last === '' ? size - 1 : Math.min(Number(last), size - 1);
  return start >= size || start > end ? 'bad' : { start, end };
}

/** Answers a request for a file with 200, 206 or 416 (RFC 9110, section 14), streaming; HEAD answers without a body. */
export function serveFile(path: string, request: Request): Response {
  const { size, mtimeMs } = statSync(path);
  const etag = `"${size.toString(16)}-${Math.round(mtimeMs).toString(16)}"`;
  // A range is defined for GET alone, and one asked of another state of the file is answered with the whole of this.
  const condition = request.headers.get('if-range');
  const asked = request.method === 'GET' && (condition === null || condition === etag);
  const range = parseRange(asked ? request.headers.get('range') : null, size);
  const headers = new Headers({
    'accept-ranges': 'bytes',
    'content-type': types[extname(path).toLowerCase()] ?? 'application/octet-stream',
    'cache-control': 'no-cache',
    etag,
  });
  if (range === 'bad') {
    headers.set('content-range', `bytes */${size}`);
    return new Response(null, { status: 416, headers });
  }
  const { start, end } = range ?? { start: 0, end: size - 1 };
  headers.set('content-length', String(Math.max(0, end - start + 1)));
  if (range !== null) headers.set('content-range', `bytes ${start}-${end}/${size}`);
  const status = range === null ? 200 : 206;
  if (request.method === 'HEAD' || size === 0) return new Response(null, { status, headers });
  const stream = createReadStream(path, { start, end, highWaterMark: 256 * 1024 });
  request.signal.addEventListener('abort', () => stream.destroy(), { once: true });
  return new Response(Readable.toWeb(stream) as ReadableStream<Uint8Array>, { status, headers });
}
