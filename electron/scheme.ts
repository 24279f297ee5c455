import type { Protocol } from 'electron';
import type { Host } from '../src/host/door.ts';

const scheme = 'creasebook';

/** The one origin whose pages may ask the door. */
export const windowOrigin = `${scheme}://window`;
export const windowAddress = `${windowOrigin}/`;

/** Gives the scheme what an https origin has; Electron takes this only before it is ready. */
export function registerScheme(protocol: Pick<Protocol, 'registerSchemesAsPrivileged'>): void {
  protocol.registerSchemesAsPrivileged([
    { scheme, privileges: { standard: true, secure: true, supportFetchAPI: true, stream: true, codeCache: true } },
  ]);
}

function comesFromElsewhere(request: Request): boolean {
  if (!request.url.startsWith(windowAddress)) return true;
  // Set by Electron and not in the page's hands: absent when the window itself was opened, null for an opaque origin.
  const initiator: unknown = 'initiatorOrigin' in request ? request.initiatorOrigin : undefined;
  if (initiator !== undefined && initiator !== windowOrigin) return true;
  const origin = request.headers.get('origin');
  return origin !== null && origin !== windowOrigin;
}

/** Answers the window's scheme with the door, and no one but the window's own pages. */
export function serveScheme(protocol: Pick<Protocol, 'handle'>, door: Host['door']): void {
  protocol.handle(scheme, async (request) => {
    if (!comesFromElsewhere(request)) return door(request);
    return new Response('This request came from another page.\n', {
      status: 403,
      headers: { 'content-type': 'text/plain; charset=utf-8', 'cache-control': 'no-store' },
    });
  });
}
