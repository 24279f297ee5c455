import { statSync } from 'node:fs';
import { basename } from 'node:path';
import { v7 as uuidv7 } from 'uuid';
import type { CallInput, CallOutput } from '../../contract/calls.ts';
import { add, set } from '../../contract/changes.ts';
import { faultOf, FaultError, type Fault } from '../../contract/faults.ts';
import type { Film } from '../../contract/rows.ts';
import { fingerprintOf } from '../../film/table/fingerprint.ts';
import { decodeFrameTable, encodeFrameTable } from '../../film/table/frame-table-bytes.ts';
import { frameCount, type FrameTable } from '../../film/table/frame-table.ts';
import { isFilmFault, readFrameTable } from '../../film/table/read-frame-table.ts';
import type { EventHub } from '../events.ts';
import { allowedPath } from '../files/browse.ts';
import type { StudyClient } from '../study/client.ts';
import { fileBytes } from './file-bytes.ts';

/** The films of the open study: added, found, and their frame tables read once and kept by fingerprint. */
export type FilmKeeper = {
  add(input: CallInput<'film.add'>, signal: AbortSignal): Promise<CallOutput<'film.add'>>;
  relink(input: CallInput<'film.relink'>): Promise<Film>;
  /** Where a film's file is; rejects with 'film-missing' when it is nowhere. */
  path(filmId: string): Promise<string>;
  /** A film's encoded frame table. */
  table(filmId: string, signal: AbortSignal): Promise<Uint8Array>;
  /** Forgets paths, when another study is opened. */
  forget(): void;
};

type Surroundings = {
  readonly study: StudyClient;
  readonly events: EventHub;
  readonly roots: readonly string[];
  readonly filmFolders: readonly string[];
};

type ReadFilm = {
  readonly table: FrameTable;
  readonly bytes: Uint8Array;
  readonly fingerprint: string;
  readonly size: number;
};

async function fingerprintAt(path: string): Promise<string> {
  const bytes = await fileBytes(path);
  try {
    return await fingerprintOf(bytes);
  } finally {
    await bytes.close();
  }
}

/** A file's size and time of change as one word; empty for no file. */
function stateOf(path: string): string {
  const stats = statSync(path, { throwIfNoEntry: false });
  return stats === undefined ? '' : `${stats.size} ${stats.mtimeMs}`;
}

const replaced = (film: Film): Fault =>
  faultOf(
    'film-changed',
    `The file of the film ${film.name} was replaced by another.`,
    'Put the old file back, or add the new one as a new film.',
  );

/**
 * Keeps the films of a study. `roots` are the folders a film may be added from; one is read from these, `filmFolders`
 * and the study's own folder, and from nowhere else, whatever path a study names.
 */
export function filmKeeper({ study, events, roots, filmFolders }: Surroundings): FilmKeeper {
  /** Files whose contents were seen to be the film's, and the state they were seen in. */
  const paths = new Map<string, { readonly path: string; readonly state: string }>();

  async function readFilm(path: string, signal: AbortSignal): Promise<ReadFilm> {
    const bytes = await fileBytes(path);
    const name = basename(path);
    try {
      const fingerprint = await fingerprintOf(bytes);
      const kept = await study.call('inner.frameTable', { fingerprint });
      if (kept !== null) {
        const decoded = decodeFrameTable(kept);
        if (decoded.known) return { table: decoded.value, bytes: kept, fingerprint, size: bytes.size };
      }
      let told = 0;
      const read = await readFrameTable(bytes, {
        signal,
        onProgress(done) {
          if (done - told < 0.02 && done < 1) return;
          told = done;
          events.tell({
            event: 'progress',
            work: path.slice(-180),
            done: Math.min(1, Math.max(0, done)),
            words: `Reading ${name.slice(0, 120)}`,
          });
        },
      });
      events.tell({ event: 'progress', work: path.slice(-180), done: 1, words: `Read ${name.slice(0, 120)}` });
      if (isFilmFault(read)) throw new FaultError(read);
      const encoded = encodeFrameTable(read);
      await study.call('inner.keepFrameTable', { fingerprint, bytes: encoded });
      return { table: read, bytes: encoded, fingerprint, size: bytes.size };
    } finally {
      await bytes.close();
    }
  }

  async function filmPathOf(filmId: string): Promise<string> {
    const kept = paths.get(filmId);
    if (kept !== undefined && kept.state === stateOf(kept.path)) return kept.path;
    paths.delete(filmId);
    const { film, path, studyFolder } = await study.call('inner.film', { filmId });
    if (path === null) {
      throw new FaultError(
        faultOf(
          'film-missing',
          `The film ${film.name} is not where the study last saw it (${film.path}).`,
          'Find it: choose “Find a moved film” and show where it is now.',
        ),
      );
    }
    allowedPath(path, [...roots, ...filmFolders, studyFolder]);
    const state = stateOf(path);
    const bytes = await fileBytes(path);
    const fingerprint = await fingerprintOf(bytes).finally(() => bytes.close());
    // A study names its films; only a file with the film's own contents is ever given out under that name.
    if (fingerprint !== film.fingerprint) throw new FaultError(replaced(film));
    paths.set(filmId, { path, state });
    return path;
  }

  /** The same film, at a path where it is now; the change is made only where the path is news. */
  async function movedTo(film: Film, path: string, by: string | null): Promise<Film> {
    await study.call('change.make', {
      by,
      label: `Find the film ${film.name}`.slice(0, 200),
      steps: [set('film', film.id, { path })],
    });
    paths.delete(film.id);
    return { ...film, path };
  }

  return {
    async add({ path, angle, by }, signal) {
      allowedPath(path, roots);
      const { table, fingerprint, size } = await readFilm(path, signal);
      const all = (await study.call('inner.rows', { table: 'film' })) as Film[];
      const same = all.find((film) => film.fingerprint === fingerprint);
      if (same !== undefined) {
        const { path: found } = await study.call('inner.film', { filmId: same.id });
        return found === null ? movedTo(same, path, by) : same;
      }
      const film: Film = {
        id: uuidv7(),
        name: basename(path).slice(0, 200),
        path,
        fingerprint,
        bytes: size,
        frames: frameCount(table),
        width: table.displayWidth,
        height: table.displayHeight,
        seconds: table.duration,
        rate: table.rate.frames / table.rate.seconds,
        codec: table.codec.slice(0, 200),
        angle,
      };
      await study.call('change.make', {
        by,
        label: `Add the film ${film.name}`.slice(0, 200),
        steps: [add('film', film)],
      });
      return film;
    },
    async relink({ filmId, path, by }) {
      allowedPath(path, roots);
      const { film } = await study.call('inner.film', { filmId });
      if ((await fingerprintAt(path)) !== film.fingerprint) {
        throw new FaultError(
          faultOf(
            'film-changed',
            `${basename(path)} is not the film ${film.name}: its contents differ.`,
            'Choose the same film, or add this one as a new film.',
          ),
        );
      }
      return movedTo(film, path, by);
    },
    path: filmPathOf,
    async table(filmId, signal) {
      const { film } = await study.call('inner.film', { filmId });
      const kept = await study.call('inner.frameTable', { fingerprint: film.fingerprint });
      if (kept !== null && decodeFrameTable(kept).known) return kept;
      const read = await readFilm(await filmPathOf(filmId), signal);
      if (read.fingerprint !== film.fingerprint) {
        throw new FaultError(replaced(film));
      }
      return read.bytes;
    },
    forget: () => paths.clear(),
  };
}
