import type { HostEvent } from '../contract/events.ts';

/** Who hears what the host has to say unasked. */
export type EventHub = {
  tell(event: HostEvent): void;
  /** A server-sent-events response that stays open until its request is aborted or the hub closes. */
  listen(request: Request): Response;
  close(): void;
};

/** Makes an event hub; every listener gets every event from when it came. */
export function eventHub(): EventHub {
  const listeners = new Set<ReadableStreamDefaultController<Uint8Array>>();
  const encoder = new TextEncoder();
  const drop = (listener: ReadableStreamDefaultController<Uint8Array>): void => {
    if (!listeners.delete(listener)) return;
    try {
      listener.close();
    } catch {
      // Already closed from the other end.
    }
  };
  const send = (listener: ReadableStreamDefaultController<Uint8Array>, words: string): void => {
    try {
      listener.enqueue(encoder.encode(words));
    } catch {
      drop(listener);
    }
  };
  return {
    tell(event) {
      for (const listener of listeners) send(listener, `data: ${JSON.stringify(event)}\n\n`);
    },
    listen(request) {
      const body = new ReadableStream<Uint8Array>({
        start(controller) {
          listeners.add(controller);
          send(controller, ': here\n\n');
          request.signal.addEventListener('abort', () => drop(controller), { once: true });
        },
        cancel() {
          for (const listener of listeners) if (listener.desiredSize === null) listeners.delete(listener);
        },
      });
      return new Response(body, {
        headers: { 'content-type': 'text/event-stream', 'cache-control': 'no-store', 'x-accel-buffering': 'no' },
      });
    },
    close() {
      for (const listener of listeners) drop(listener);
    },
  };
}
