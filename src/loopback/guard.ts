import { timingSafeEqual, createHash } from 'node:crypto';

/** Decides whether a request on the loopback address comes from the window that was given this run's key. */
export type Guard = (request: Request) => Response | null;

const sameSecret = (a: string, b: string): boolean =>
  timingSafeEqual(createHash('sha256').update(a).digest(), createHash('sha256').update(b).digest());

function cookieOf(request: Request, name: string): string | null {
  for (const part of (request.headers.get('cookie') ?? '').split(';')) {
    const [key, ...value] = part.trim().split('=');
    if (key === name) return value.join('=');
  }
  return null;
}

const refuse = (says: string): Response =>
  new Response(`${says}\n`, {
    status: 403,
    headers: { 'content-type': 'text/plain; charset=utf-8', 'cache-control': 'no-store' },
  });

/**
 * Makes the guard of one run: a wrong Host (DNS rebinding) or Origin (another page) is refused; the key in the first
 * address becomes a strict HttpOnly cookie, so it is not left in the address bar; without either, refused.
 */
export function guardOf({ key, port }: { readonly key: string; readonly port: number }): Guard {
  const hosts = new Set([`127.0.0.1:${port}`, `localhost:${port}`]);
  const origins = new Set([...hosts].map((host) => `http://${host}`));
  const cookieName = `creasebook-${port}`;
  return (request) => {
    if (!hosts.has(request.headers.get('host') ?? '')) return refuse('This address is served to this machine only.');
    const origin = request.headers.get('origin');
    if (origin !== null && !origins.has(origin)) return refuse('This request came from another page.');
    const site = request.headers.get('sec-fetch-site');
    const navigates = request.headers.get('sec-fetch-mode') === 'navigate';
    if (site !== null && site !== 'same-origin' && site !== 'none' && !navigates)
      return refuse('This request came from another page.');
    const url = new URL(request.url);
    const given = url.searchParams.get('key');
    if (given !== null && sameSecret(given, key)) {
      url.searchParams.delete('key');
      return new Response(null, {
        status: 303,
        headers: {
          location: url.pathname + url.search,
          'set-cookie': `${cookieName}=${key}; HttpOnly; SameSite=Strict; Path=/`,
          'cache-control': 'no-store',
        },
      });
    }
    const cookie = cookieOf(request, cookieName);
    if (cookie !== null && sameSecret(cookie, key)) return null;
    return refuse('This window needs the address that Creasebook printed when it started.');
  };
}
