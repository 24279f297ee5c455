import { randomBytes } from 'node:crypto';
import { readFileSync, statSync } from 'node:fs';
import { extname, join, normalize, sep } from 'node:path';
import { faultOf, FaultError } from '../contract/faults.ts';

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.wasm': 'application/wasm',
  '.ico': 'image/x-icon',
};

/** The policy of the window: nothing from elsewhere, no inline script, styles by file or by this answer's own nonce. */
export function contentPolicy(nonce: string): string {
  return [
    "default-src 'none'",
    "script-src 'self'",
    `style-src 'self' 'nonce-${nonce}'`,
    "img-src 'self' blob: data:",
    "media-src 'self' blob:",
    "font-src 'self'",
    "connect-src 'self'",
    "worker-src 'self'",
    "manifest-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
    "object-src 'none'",
  ].join('; ');
}

/** Serves a file of the built window, or its index for any address without an ending; throws a FaultError for none. */
export function serveUi(folder: string, pathname: string): Response {
  const asked = normalize(decoded(pathname));
  const name = extname(asked) === '' ? 'index.html' : asked;
  const path = join(folder, name);
  if (!path.startsWith(folder + sep) || asked.includes('\0')) throw noFile(pathname);
  try {
    if (!statSync(path).isFile()) throw noFile(pathname);
  } catch {
    throw noFile(pathname);
  }
  const headers = new Headers({
    'content-type': types[extname(path)] ?? 'application/octet-stream',
    'x-content-type-options': 'nosniff',
    'referrer-policy': 'no-referrer',
    'cross-origin-opener-policy': 'same-origin',
    'cross-origin-resource-policy': 'same-origin',
  });
  if (name !== 'index.html') {
    headers.set('cache-control', name.startsWith('/assets/') ? 'private, max-age=31536000, immutable' : 'no-cache');
    return new Response(readFileSync(path), { headers });
  }
  const nonce = randomBytes(16).toString('base64');
  headers.set('content-security-policy', contentPolicy(nonce));
  headers.set('permissions-policy', 'camera=(), microphone=(), geolocation=(), usb=(), serial=(), hid=(), payment=()');
  headers.set('cache-control', 'no-store');
  return new Response(readFileSync(path, 'utf8').replaceAll('NONCE-OF-THIS-ANSWER', nonce), { headers });
}

function decoded(pathname: string): string {
  try {
    return decodeURIComponent(pathname);
  } catch {
    throw noFile(pathname);
  }
}

function noFile(pathname: string): FaultError {
  return new FaultError(
    faultOf('not-found', `The window has no file ${pathname.slice(0, 120)}.`, 'Build the window again: npm run build.'),
  );
}
