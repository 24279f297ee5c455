import { useEffect, useMemo, useState } from 'react';
import type { CarryFilm } from '../../contract/comparison-views.ts';
import type { Film } from '../../contract/rows.ts';
import type { MomentName } from '../../contract/words.ts';
import type { FrameTable } from '../../film/table/frame-table.ts';
import { call } from '../link/call.ts';
import { attempt, usePlace } from '../link/place.ts';
import { bothReach, frameAt, sharedMoments, type LockedSide } from './lock.ts';
import { tableOf } from './room-films.ts';
import { useSides, type Which } from './side-store.ts';

/** One carry on film, ready to be locked. */
export type FilmedSide = {
  readonly locked: LockedSide;
  readonly film: Film;
  readonly table: FrameTable;
};

/** What each side shows, and on what the two are locked. */
export type Lock = {
  readonly first: FilmedSide | null;
  readonly second: FilmedSide | null;
  /** Moments both have; the one they are locked on, null: on the beginning of each span. */
  readonly moments: readonly MomentName[];
  readonly moment: MomentName | null;
  readonly reach: { readonly from: number; readonly to: number };
  /** Why a side shows nothing, in words. */
  readonly missing: Readonly<Record<Which, string | null>>;
};

type Found = { readonly partId: string; readonly film: CarryFilm; readonly table: FrameTable | null };

function useFound(partId: string | null): Found | null {
  const [found, setFound] = useState<Found | null>(null);
  useEffect(() => {
    if (partId === null) return;
    let gone = false;
    void attempt(async () => {
      const film = await call('carry.film', { partId });
      const [span] = film.spans;
      // A film that is missing says so in its picture; the table may still be kept in the study.
      const table = span === undefined ? null : await tableOf(span.filmId).catch(() => null);
      if (!gone) setFound({ partId, film, table });
    });
    return () => {
      gone = true;
    };
  }, [partId]);
  return found?.partId === partId ? found : null;
}

function filmed(found: Found | null, films: readonly Film[]): FilmedSide | null {
  const [span] = found?.film.spans ?? [];
  const film = films.find(({ id }) => id === span?.filmId);
  if (found === null || found.table === null || span === undefined || film === undefined) return null;
  const moments = found.film.moments.filter(({ spanId }) => spanId === span.id);
  return { film, table: found.table, locked: { span, times: found.table.times, moments } };
}

function missingWords(partId: string | null, found: Found | null, films: readonly Film[]): string | null {
  if (partId === null) return 'No carry is chosen.';
  if (found === null) return null;
  const [span] = found.film.spans;
  if (span === undefined) return 'This carry is not cut from any film: cut it on the Stage to see it here.';
  const film = films.find(({ id }) => id === span.filmId);
  if (found.table === null) return `The film ${film?.name ?? ''} can’t be read here: find it under Films in Settings.`;
  return null;
}

/** Reads the two chosen carries' film and locks them. */
export function useLock(): Lock {
  const films = usePlace((place) => place.directory?.films);
  const carry = useSides((sides) => sides.carry);
  const wanted = useSides((sides) => sides.moment);
  const one = useFound(carry.first);
  const other = useFound(carry.second);
  // The same lock while nothing about it changed: a playing clock must not make keys and pictures anew.
  return useMemo(
    () => lockOf({ first: carry.first, second: carry.second }, { first: one, second: other }, films ?? [], wanted),
    [carry.first, carry.second, one, other, films, wanted],
  );
}

function lockOf(
  carry: Readonly<Record<Which, string | null>>,
  found: Readonly<Record<Which, Found | null>>,
  films: readonly Film[],
  wanted: MomentName | null,
): Lock {
  const [first, second] = [filmed(found.first, films), filmed(found.second, films)];
  const moments = first === null || second === null ? [] : sharedMoments(first.locked.moments, second.locked.moments);
  const moment =
    moments.find((name) => name === wanted) ?? moments.find((name) => name === 'exchange') ?? moments[0] ?? null;
  const one = first ?? second;
  const other = second ?? first;
  return {
    first,
    second,
    moments,
    moment,
    reach: one === null || other === null ? { from: 0, to: 0 } : bothReach([one.locked, other.locked], moment),
    missing: {
      first: missingWords(carry.first, found.first, films),
      second: missingWords(carry.second, found.second, films),
    },
  };
}

/** Runs the clock of both pictures while they play; at the end of what both have it begins again, or stops. */
export function usePlaying({ from, to }: Lock['reach']): void {
  const playing = useSides((sides) => sides.playing);
  useEffect(() => {
    if (!playing) return;
    if (to <= from) {
      useSides.setState({ playing: false });
      return;
    }
    let last = performance.now();
    let handle = requestAnimationFrame(function next(now) {
      const { instant, speed, looping } = useSides.getState();
      const later = instant + (Math.max(0, now - last) / 1000) * speed;
      last = now;
      if (later < to) useSides.setState({ instant: Math.max(from, later) });
      else if (looping) useSides.setState({ instant: from });
      else {
        useSides.setState({ instant: to, playing: false });
        return;
      }
      handle = requestAnimationFrame(next);
    });
    return () => cancelAnimationFrame(handle);
  }, [playing, from, to]);
}

/** The frame a side shows at the instant. */
export const frameOf = (side: FilmedSide, moment: MomentName | null, instant: number): number =>
  frameAt(side.locked, moment, instant);
