import { create } from 'zustand';
import type { Directory } from '../../contract/calls.ts';
import { FaultError, faultOf, type Fault } from '../../contract/faults.ts';
import { call } from './call.ts';

export const rooms = ['stage', 'sheet', 'side by side', 'board', 'dossier', 'second look', 'settings'] as const;
export type Room = (typeof rooms)[number];

/** Where the person is and what the study holds: read by every room, written through the functions below. */
type Place = {
  room: Room;
  directory: Directory | null;
  /** Set once the first read came back, also when no study is open. */
  ready: boolean;
  evaluatorId: string | null;
  gameId: string | null;
  playId: string | null;
  runnerId: string | null;
  /** The runner set beside him in Side by side. */
  otherRunnerId: string | null;
  /** A span and frame to show on the Stage next; the Stage takes it. */
  showing: { spanId: string | null; frame: number | null } | null;
  theme: 'dark' | 'light';
  density: 'open' | 'close';
  /** The last trouble, shown until it is put away. */
  fault: Fault | null;
  /** A short line for the eye and the screen reader. */
  notice: string;
};

export const usePlace = create<Place>(() => ({
  room: 'stage',
  directory: null,
  ready: false,
  evaluatorId: null,
  gameId: null,
  playId: null,
  runnerId: null,
  otherRunnerId: null,
  showing: null,
  theme: 'dark',
  density: 'open',
  fault: null,
  notice: '',
}));

/** Under what a study's place is kept; the end of a path tells more than its beginning. */
const placeKey = (path: string): string => `place ${path.slice(-70)}`;

const remembered = ['room', 'evaluatorId', 'gameId', 'playId', 'runnerId', 'otherRunnerId', 'theme'] as const;
let keeping: ReturnType<typeof setTimeout> | null = null;

/** Moves: sets some of the place and keeps it for the next start, a moment later. */
export function go(to: Partial<Place>): void {
  usePlace.setState(to);
  if (keeping !== null) clearTimeout(keeping);
  keeping = setTimeout(() => {
    const place = usePlace.getState();
    const path = place.directory?.study.path;
    if (path === undefined) return;
    const kept = Object.fromEntries(remembered.map((key) => [key, place[key]]));
    call('preferences.write', {
      set: { theme: place.theme, density: place.density, [placeKey(path)]: kept },
    }).catch(() => undefined);
  }, 400);
}

/** Shows trouble to the person; anything that is no FaultError is our bug and is thrown on. */
export function showFault(cause: unknown): void {
  if (cause instanceof FaultError) usePlace.setState({ fault: cause.fault });
  else throw cause;
}

/** Says a short line, seen in the status line and read by screen readers. */
export function say(notice: string): void {
  usePlace.setState({ notice });
}

/** Runs work whose trouble is shown; resolves to undefined when there was some. */
export async function attempt<Value>(work: () => Promise<Value>): Promise<Value | undefined> {
  try {
    return await work();
  } catch (cause) {
    showFault(cause);
    return undefined;
  }
}

const asText = (value: unknown): string | null => (typeof value === 'string' ? value : null);

/** Reads the study's directory; the first time also where this person was. */
export async function readDirectory(): Promise<void> {
  const first = !usePlace.getState().ready;
  const info = await call('study.info', {});
  if (info === null) {
    usePlace.setState({ directory: null, ready: true });
    return;
  }
  const directory = await call('directory.read', {});
  const place = usePlace.getState();
  const next: Partial<Place> = { directory, ready: true };
  if (first || place.directory?.study.path !== info.path) {
    if (info.readOnlyBecause !== null) {
      next.fault = faultOf(
        'read-only',
        `This study is open for reading only. ${info.readOnlyBecause}`,
        'To change it, close it elsewhere, or open it with the newer program or as a copy where you may write.',
      );
    }
    const preferences = await call('preferences.read', {});
    const kept = preferences[placeKey(info.path)] ?? directory.settings.find(({ id }) => id === 'opensOn')?.value;
    const was: Record<string, unknown> = typeof kept === 'object' && kept !== null && !Array.isArray(kept) ? kept : {};
    const room = rooms.find((name) => name === was['room']);
    if (room !== undefined) next.room = room;
    if (preferences['theme'] === 'light' || preferences['theme'] === 'dark') next.theme = preferences['theme'];
    if (preferences['density'] === 'close') next.density = 'close';
    next.evaluatorId = asText(was['evaluatorId']);
    next.gameId = asText(was['gameId']);
    next.playId = asText(was['playId']);
    next.runnerId = asText(was['runnerId']);
    const showing = was['showing'];
    if (typeof showing === 'object' && showing !== null && 'spanId' in showing && 'frame' in showing) {
      next.showing = {
        spanId: asText(showing.spanId),
        frame: typeof showing.frame === 'number' ? showing.frame : null,
      };
    }
    next.otherRunnerId = asText(was['otherRunnerId']);
  }
  const held = <Row extends { id: string }>(list: readonly Row[], wanted: string | null | undefined): string | null =>
    list.find(({ id }) => id === wanted)?.id ?? list[0]?.id ?? null;
  next.evaluatorId = held(directory.evaluators, next.evaluatorId ?? place.evaluatorId);
  next.gameId = held(directory.games, next.gameId ?? place.gameId);
  next.runnerId = held(directory.runners, next.runnerId ?? place.runnerId);
  usePlace.setState(next);
}
