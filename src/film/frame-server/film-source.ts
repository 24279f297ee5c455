import { ALL_FORMATS, EncodedPacketSink, Input, UrlSource, type EncodedPacket } from 'mediabunny';
import { FaultError, faultOf, type Fault } from '../../contract/faults.ts';
import { filmNoVideoTrack, filmUnsupported } from '../table/film-faults.ts';
import { framesInDecodeOrder, type FrameTable } from '../table/frame-table.ts';

/** One packet of a film on its way to a decoder. */
export type FilmPacket = { readonly packet: EncodedPacket; readonly place: number };

/** A film's packets, read through range requests. */
export type FilmSource = {
  readonly config: VideoDecoderConfig;
  /** The frame each packet shows, by place in decode order; -1 for none. */
  readonly frames: Int32Array;
  /** Reads packets in decode order from the key packet at a place in `keyDecode`. End it with `return()`. */
  readonly from: (key: number) => AsyncGenerator<FilmPacket, void, undefined>;
  readonly close: () => void;
};

/** What a failed request for a film's bytes means: the file is gone, or another one lies in its place. */
function fetchFault(status: number): Fault {
  const next = 'Show the program where the film is now.';
  return status === 409 || status === 412
    ? faultOf('film-changed', 'Wanted the film this study knows, got another file in its place.', next)
    : faultOf('film-missing', `Wanted the film's bytes, got ${status === 0 ? 'no answer' : `answer ${status}`}.`, next);
}

const leastGap = 1e-6;

/**
 * Opens the film at a URL that answers range requests. Rejects with a FaultError when it is gone, when it has no
 * video track, or when this machine has no decoder for its codec (the codec is named).
 */
export async function openFilmSource(url: string, table: FrameTable): Promise<FilmSource> {
  let status = 0;
  const source = new UrlSource(url, {
    requestInit: { credentials: 'same-origin', cache: 'no-store' },
    maxCacheSize: 24 * 2 ** 20,
    getRetryDelay: (attempts) => (attempts < 2 && (status === 0 || status >= 500) ? 0.2 : null),
    fetchFn: async (input: RequestInfo | URL, init?: RequestInit) => {
      status = 0;
      const answer = await fetch(input, init);
      status = answer.status;
      return answer;
    },
    handleUnhandledError: () => undefined,
  });
  const input = new Input({ formats: ALL_FORMATS, source });
  const fail = (error: unknown): never => {
    if (error instanceof FaultError) throw error;
    if (status < 200 || status > 299) throw new FaultError(fetchFault(status));
    throw error;
  };
  try {
    const track = await input.getPrimaryVideoTrack();
    if (track === null) throw new FaultError(filmNoVideoTrack('one without'));
    const config = await track.getDecoderConfig();
    const supported = config !== null && (await VideoDecoder.isConfigSupported(config)).supported === true;
    if (!supported) {
      throw new FaultError(filmUnsupported(`one in ${table.codec}, for which this machine has no decoder`));
    }
    const sink = new EncodedPacketSink(track);
    return {
      config,
      frames: framesInDecodeOrder(table),
      close: () => input.dispose(),
      async *from(key) {
        const time = table.keyTimes[key];
        let place = table.keyDecode[key];
        if (time === undefined || place === undefined) throw new Error(`The film has no key packet ${key}.`);
        try {
          const first = await sink.getKeyPacket(time + leastGap);
          if (first === null) throw new FaultError(fetchFault(status));
          for await (const packet of sink.packets(first)) {
            yield { packet, place };
            place += 1;
          }
        } catch (error) {
          fail(error);
        }
      },
    };
  } catch (error) {
    input.dispose();
    return fail(error);
  }
}
