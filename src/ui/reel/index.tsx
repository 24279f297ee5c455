import { useEffect, useState } from 'react';
import type { Reel as MadeReel } from '../../film/reel/make-reel.ts';
import { Button } from '../kit/button.tsx';
import { Dialog } from '../kit/dialog.tsx';
import { Field } from '../kit/field.tsx';
import { attempt, say } from '../link/place.ts';
import { useReelRequest, type ReelRequest } from '../link/reel-request.ts';
import { makeReelOf, readItems } from './make.ts';
import { fileNameOf, type ReelChoices, type ReelItem } from './reel-list.ts';
import { ReelRows } from './reel-rows.tsx';
import './reel.css';

type Made = { readonly reel: MadeReel; readonly address: string; readonly file: string };
type Work = { readonly done: number; readonly stop: AbortController };

/** Puts a reel together over any room: its plays, their order and cards, made here and saved as a film. */
export function Reel() {
  const request = useReelRequest((state) => state.request);
  if (request === null) return null;
  return <ReelOf key={`${request.name} ${request.plays.length}`} request={request} />;
}

function ReelOf({ request }: { request: ReelRequest }) {
  const [items, setItems] = useState<readonly ReelItem[] | null>(null);
  const [choices, setChoices] = useState<ReelChoices>({
    head: request.name,
    cards: true,
    cardSeconds: 2.5,
    chalk: true,
  });
  const [work, setWork] = useState<Work | null>(null);
  const [made, setMade] = useState<Made | null>(null);
  useEffect(() => {
    void attempt(async () => setItems(await readItems(request.plays)));
  }, [request]);
  useEffect(() => () => (made === null ? undefined : URL.revokeObjectURL(made.address)), [made]);
  const shown = items?.filter(({ left }) => !left) ?? [];
  const change = (next: Partial<ReelChoices>): void => {
    setMade(null);
    setChoices({ ...choices, ...next });
  };
  const close = (): void => {
    work?.stop.abort();
    useReelRequest.setState({ request: null });
  };
  const make = (): void => {
    const stop = new AbortController();
    setMade(null);
    setWork({ done: 0, stop });
    void attempt(async () => {
      try {
        const hear = (done: number): void => setWork((now) => (now?.stop === stop ? { done, stop } : now));
        const reel = await makeReelOf(items ?? [], choices, hear, stop.signal);
        const address = URL.createObjectURL(new Blob([reel.bytes], { type: 'video/mp4' }));
        const file = fileNameOf(choices.head === '' ? request.name : choices.head);
        setMade({ reel, address, file });
        save(address, file);
        say(`The reel is made: ${reel.seconds.toFixed(1)} seconds.`);
      } catch (cause) {
        // Stopping is no trouble.
        if (!stop.signal.aborted) throw cause;
        say('The reel was stopped; nothing was saved.');
      }
    }).finally(() => setWork(null));
  };
  return (
    <Dialog title="Make a reel" open onClose={close} wide>
      <div className="form-grid">
        <Field
          label="Title card at the beginning; empty: none"
          render={({ id }) => (
            <input
              id={id}
              value={choices.head}
              maxLength={120}
              disabled={work !== null}
              onChange={(event) => change({ head: event.target.value })}
            />
          )}
        />
        <Field
          label="Seconds a card stands"
          render={({ id }) => (
            <input
              id={id}
              type="number"
              min={0.5}
              max={20}
              step={0.5}
              value={choices.cardSeconds}
              disabled={work !== null}
              onChange={(event) =>
                change({ cardSeconds: Math.min(20, Math.max(0.5, event.target.valueAsNumber || 2.5)) })
              }
            />
          )}
        />
      </div>
      <div className="row">
        <label className="reel-choice">
          <input
            type="checkbox"
            checked={choices.cards}
            disabled={work !== null}
            onChange={(event) => change({ cards: event.target.checked })}
          />
          A card before each play
        </label>
        <label className="reel-choice">
          <input
            type="checkbox"
            checked={choices.chalk}
            disabled={work !== null}
            onChange={(event) => change({ chalk: event.target.checked })}
          />
          Chalk on the picture
        </label>
      </div>
      {items === null ? null : items.length === 0 ? (
        <p>None of these plays has film.</p>
      ) : (
        <ReelRows
          items={items}
          disabled={work !== null}
          onChange={(next) => {
            setMade(null);
            setItems(next);
          }}
        />
      )}
      {work === null ? (
        <div className="row">
          <Button kind={made === null ? 'chosen' : 'plain'} disabled={shown.length === 0} onClick={make}>
            {made === null
              ? `Make a reel of ${shown.length === 1 ? 'one play' : `${shown.length} plays`}`
              : 'Make it again'}
          </Button>
          {made === null ? null : (
            <p role="status">
              <a href={made.address} download={made.file}>
                Save {made.file}
              </a>{' '}
              <span className="muted">{inWords(made.reel)}</span>
            </p>
          )}
        </div>
      ) : (
        <div className="row">
          <progress max={1} value={work.done} aria-label="Reel made so far" />
          <span className="number">{Math.round(work.done * 100)} %</span>
          <Button onClick={() => work.stop.abort()}>Stop</Button>
        </div>
      )}
    </Dialog>
  );
}

function inWords({ bytes, how, seconds, lost }: MadeReel): string {
  return [
    `${seconds.toFixed(1)} s`,
    `${(bytes.length / 1e6).toFixed(1)} MB`,
    how === 'copied' ? 'the films’ own pictures, untouched' : 'pictures encoded anew',
    'without sound',
    ...(lost === 0 ? [] : [`${lost} frames could not be read`]),
  ].join(' · ');
}

function save(address: string, file: string): void {
  const link = document.createElement('a');
  link.href = address;
  link.download = file;
  link.click();
}
