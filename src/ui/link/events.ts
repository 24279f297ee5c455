import { hostEvent, type HostEvent } from '../../contract/events.ts';

/** Listens to what the host tells unasked, until the returned function is called. */
export function listen(hear: (event: HostEvent) => void): () => void {
  const source = new EventSource('/events');
  source.addEventListener('message', (message) => {
    const parsed = hostEvent.safeParse(JSON.parse(String(message.data)));
    if (parsed.success) hear(parsed.data);
  });
  return () => source.close();
}
