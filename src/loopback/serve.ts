import { serve as serveNode } from '@hono/node-server';
import { randomBytes } from 'node:crypto';
import type { AddressInfo } from 'node:net';
import type { Host } from '../host/door.ts';
import { guardOf, type Guard } from './guard.ts';

/** A running loopback server: the address to open (with this run's key) and how to end it. */
export type Served = { readonly address: string; readonly port: number; close(): Promise<void> };

/** Serves a host's door on 127.0.0.1 only; port 0 takes any free one. Rejects when the port is taken. */
export function serveLoopback(host: Host, port: number): Promise<Served> {
  const key = randomBytes(24).toString('base64url');
  let guard: Guard | null = null;
  return new Promise((resolve, reject) => {
    const server = serveNode(
      {
        hostname: '127.0.0.1',
        port,
        fetch: (request) => {
          const refused = guard === null ? new Response(null, { status: 503 }) : guard(request);
          return refused ?? host.door(request);
        },
      },
      (info: AddressInfo) => {
        guard = guardOf({ key, port: info.port });
        resolve({
          address: `http://127.0.0.1:${info.port}/?key=${key}`,
          port: info.port,
          close: () =>
            new Promise((closed) => {
              server.close(() => closed());
              if ('closeAllConnections' in server) server.closeAllConnections();
            }),
        });
      },
    );
    server.on('error', reject);
  });
}
