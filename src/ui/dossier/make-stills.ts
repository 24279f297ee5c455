import { paintFrame } from '../../film/frame-server/paint-frame.ts';
import { openFrameServer } from '../../film/frame-server/frame-server.ts';
import { call } from '../link/call.ts';
import { say } from '../link/place.ts';
import { fetchFrameTable } from '../link/fetch-frame-table.ts';

const base64Of = async (blob: Blob): Promise<string> => {
  const bytes = new Uint8Array(await blob.arrayBuffer());
  let text = '';
  for (let at = 0; at < bytes.length; at += 0x8000) text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(text);
};

/** Decodes the exact frames of the evidence that have no still yet and keeps them in the study; resolves to how many were made. */
export async function makeMissingStills(runnerId: string, evaluatorId: string | null): Promise<number> {
  const wanted = await call('still.missing', { runnerId, evaluatorId });
  if (wanted.length === 0) return 0;
  const server = openFrameServer({ budgetBytes: 64 * 1024 * 1024 });
  let made = 0;
  try {
    for (const filmId of new Set(wanted.map((one) => one.filmId))) {
      const table = await fetchFrameTable(filmId);
      const film = await server.openFilm({ id: filmId, url: `/film/${filmId}`, table });
      for (const { frame } of wanted.filter((one) => one.filmId === filmId)) {
        say(`Making still ${made + 1} of ${wanted.length}`);
        const got = await server.frame(film, frame);
        if (!got.known) continue;
        const canvas = document.createElement('canvas');
        paintFrame(canvas, got.value, table.rotation);
        const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', 0.86));
        if (blob === null) continue;
        await call('still.put', { filmId, frame, jpegBase64: await base64Of(blob) });
        made += 1;
      }
    }
  } finally {
    server.close();
    say('');
  }
  return made;
}
