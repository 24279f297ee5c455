/** What the bench measures inside the page; the page offers it as `bench`. */
import { proposeCuts } from '../../src/film/cutting/propose-cuts.ts';
import { openFilmSource } from '../../src/film/frame-server/film-source.ts';
import { openFrameServer, type FrameServer, type ServedFilm } from '../../src/film/frame-server/frame-server.ts';
import { paintFrame } from '../../src/film/frame-server/paint-frame.ts';
import { seekTime } from '../../src/film/handover.ts';
import { openShuttle } from '../../src/film/shuttle.ts';
import { keyFor, type FrameTable } from '../../src/film/table/frame-table.ts';

type Open = { readonly server: FrameServer; readonly film: ServedFilm; readonly canvas: HTMLCanvasElement };

const budget = 256 * 2 ** 20;
const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

/** A generator of whole numbers, the same at each run. */
function draws(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

/** Decodes one group of pictures with nothing else, or the whole film; gives milliseconds. */
async function bare(name: string, table: FrameTable, from: number, to: number): Promise<number> {
  const source = await openFilmSource(new URL(`/film/${encodeURIComponent(name)}`, location.href).href, table);
  const packets: EncodedVideoChunk[] = [];
  for await (const { packet, place } of source.from(from)) {
    if (place >= (table.keyDecode[to + 1] ?? Infinity)) break;
    packets.push(packet.toEncodedVideoChunk());
  }
  let out = 0;
  const begun = performance.now();
  const decoder = new VideoDecoder({
    output(frame) {
      out += 1;
      frame.close();
    },
    error(error) {
      throw error;
    },
  });
  decoder.configure(source.config);
  for (const packet of packets) decoder.decode(packet);
  await decoder.flush();
  const taken = performance.now() - begun;
  decoder.close();
  source.close();
  if (out < packets.length) throw new Error(`Bare decode gave ${out} of ${packets.length} frames.`);
  return taken;
}

/** Offers the measurements, given the page's way to fetch a frame table. */
export function benchTools(fetchTable: (film: string) => Promise<FrameTable>) {
  let soaking: (Open & { at: number; direction: 1 | -1 }) | null = null;

  async function open(name: string, budgetBytes = budget): Promise<Open> {
    const server = openFrameServer({ budgetBytes });
    const film = await server.openFilm({
      id: name,
      url: `/film/${encodeURIComponent(name)}`,
      table: await fetchTable(name),
    });
    const canvas = document.createElement('canvas');
    document.body.replaceChildren(canvas);
    return { server, film, canvas };
  }

  async function show({ server, film, canvas }: Open, frame: number, direction: 1 | -1): Promise<boolean> {
    const got = await server.frame(film, frame, { direction });
    if (got.known) paintFrame(canvas, got.value);
    return got.known;
  }

  return {
    /** Steps one way at 25 keys a second; milliseconds from asking to painted. The first 30 warm up. */
    async steps(name: string, direction: 1 | -1, count: number): Promise<number[]> {
      const opened = await open(name);
      const times: number[] = [];
      let frame = direction === 1 ? 200 : 900;
      for (let step = 0; step < count + 30; step += 1) {
        const begun = performance.now();
        await show(opened, frame, direction);
        if (step >= 30) times.push(performance.now() - begun);
        frame += direction;
        await pause(Math.max(1, 40 - (performance.now() - begun)));
      }
      opened.server.close();
      return times;
    },

    /** The same by seeking a video element and drawing it, and how often its picture was of another frame. */
    async elementSteps(name: string, count: number): Promise<{ times: number[]; wrong: number }> {
      const table = await fetchTable(name);
      const video = document.createElement('video');
      video.muted = true;
      video.src = `/film/${encodeURIComponent(name)}`;
      const canvas = document.createElement('canvas');
      canvas.width = table.width;
      canvas.height = table.height;
      document.body.replaceChildren(video, canvas);
      await new Promise((resolve) => video.addEventListener('loadeddata', resolve, { once: true }));
      const times: number[] = [];
      let wrong = 0;
      for (let frame = 200; frame < 200 + count; frame += 1) {
        const begun = performance.now();
        const presented = new Promise<number>((resolve) => {
          video.requestVideoFrameCallback((_now, { mediaTime }) => resolve(mediaTime));
        });
        video.currentTime = seekTime(table, frame);
        const mediaTime = await Promise.race([presented, pause(2000).then(() => -1)]);
        canvas.getContext('2d')?.drawImage(video, 0, 0);
        times.push(performance.now() - begun);
        if (Math.abs(mediaTime - (table.times[frame] ?? 0)) > 0.004) wrong += 1;
      }
      video.remove();
      return { times, wrong };
    },

    /** Jumps to random frames far from what is held, each beside the bare decode of its group of pictures. */
    async jumps(name: string, count: number): Promise<{ ours: number[]; bare: number[] }> {
      const table = await fetchTable(name);
      const random = draws(11);
      const [ours, bareTimes]: [number[], number[]] = [[], []];
      const opened = await open(name, 24 * 2 ** 20);
      let before = 0;
      for (let jump = 0; jump < count; jump += 1) {
        let frame = random(table.times.length);
        while (Math.abs(frame - before) < 200) frame = random(table.times.length);
        before = frame;
        const begun = performance.now();
        await show(opened, frame, 1);
        ours.push(performance.now() - begun);
        await pause(250);
        const key = keyFor(table, frame);
        bareTimes.push(await bare(name, table, key, key));
      }
      opened.server.close();
      return { ours, bare: bareTimes };
    },

    /** Drags over the film there and back for some seconds; true frames painted a second. */
    async scrub(name: string, seconds: number): Promise<number> {
      const opened = await open(name);
      await show(opened, 300, 1);
      const begun = performance.now();
      let painted = 0;
      let last = -1;
      for (;;) {
        const gone = (performance.now() - begun) / 1000;
        if (gone >= seconds) break;
        // A slow drag: half a second of film a second, with a pause of the hand at each end.
        const frame = Math.round(300 + 60 * Math.sin(gone * 1.5));
        if (frame !== last && (await show(opened, frame, frame >= last ? 1 : -1))) painted += 1;
        last = frame;
        await pause(1);
      }
      opened.server.close();
      return painted / seconds;
    },

    /** Plays backwards at 1x from the middle; frames shown a second. */
    async reverse(name: string, seconds: number): Promise<number> {
      const opened = await open(name);
      await show(opened, 1000, -1);
      await pause(600);
      let shown = 0;
      const shuttle = openShuttle({
        table: opened.film.table,
        now: () => performance.now() / 1000,
        nextPicture: (then) => requestAnimationFrame(then),
        cancel: (number) => cancelAnimationFrame(number),
        show: async (frame, direction) => {
          const done = await show(opened, frame, direction);
          shown += done ? 1 : 0;
          return done;
        },
        onEnd: () => undefined,
      });
      shuttle.run(1000, -1);
      await pause(seconds * 1000);
      shuttle.stop();
      opened.server.close();
      return shown / seconds;
    },

    /** Painting a picture of the server's, and drawing a VideoFrame of the same size; milliseconds each. */
    async draws(name: string, count: number): Promise<{ ours: number[]; element: number[] }> {
      const opened = await open(name);
      const context = opened.canvas.getContext('2d', { alpha: false });
      const [ours, element]: [number[], number[]] = [[], []];
      for (let frame = 100; frame < 100 + count; frame += 1) {
        const got = await opened.server.frame(opened.film, frame, { direction: 1 });
        if (!got.known) continue;
        let begun = performance.now();
        paintFrame(opened.canvas, got.value);
        context?.getImageData(0, 0, 1, 1);
        ours.push(performance.now() - begun);
        const { width, height } = got.value.picture;
        const planes = new Uint8Array(width * height * 1.5).fill(frame);
        const picture = new VideoFrame(planes, {
          format: 'I420',
          codedWidth: width,
          codedHeight: height,
          timestamp: 0,
        });
        begun = performance.now();
        context?.drawImage(picture, 0, 0);
        context?.getImageData(0, 0, 1, 1);
        element.push(performance.now() - begun);
        picture.close();
      }
      opened.server.close();
      return { ours, element };
    },

    /** Decodes and closes every frame; frames a second. */
    async bareDecode(name: string): Promise<number> {
      const table = await fetchTable(name);
      return table.packets / ((await bare(name, table, 0, table.keyDecode.length - 1)) / 1000);
    },

    /** Proposes the cuts of the whole film; frames a second. */
    async cutting(name: string): Promise<number> {
      const table = await fetchTable(name);
      const begun = performance.now();
      await proposeCuts({ url: `/film/${encodeURIComponent(name)}`, table });
      return table.times.length / ((performance.now() - begun) / 1000);
    },

    async beginSoak(name: string): Promise<void> {
      soaking = { ...(await open(name, 160 * 2 ** 20)), at: 0, direction: 1 };
    },

    /** Steps there and back; the most bytes the cache held. */
    async soak(count: number): Promise<number> {
      let most = 0;
      if (soaking === null) throw new Error('Begin the soak first.');
      for (let step = 0; step < count; step += 1) {
        await show(soaking, soaking.at, soaking.direction);
        const last = soaking.film.table.times.length - 1;
        if (soaking.at + soaking.direction < 0 || soaking.at + soaking.direction > last) {
          soaking.direction = soaking.direction === 1 ? -1 : 1;
        }
        soaking.at += soaking.direction;
        if (step % 20 === 0) most = Math.max(most, (await soaking.server.report()).cachedBytes);
      }
      return most;
    },

    async endSoak(): Promise<number> {
      const held = await soaking?.server.report();
      soaking?.server.close();
      soaking = null;
      return held?.budgetBytes ?? 0;
    },
  };
}

/** The measurements the page offers. */
export type BenchTools = ReturnType<typeof benchTools>;
