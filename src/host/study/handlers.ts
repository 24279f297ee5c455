/** What the study worker answers: the contract's calls that need only the study, and the host's inner ones. */
import { createHash } from 'node:crypto';
import { realpathSync } from 'node:fs';
import { dirname } from 'node:path';
import type { CallInput, CallName, CallOutput } from '../../contract/calls.ts';
import { add } from '../../contract/changes.ts';
import { faultOf, FaultError } from '../../contract/faults.ts';
import { rubricBody } from '../../contract/rows.ts';
import type { IssuedView } from '../../contract/views.ts';
import { defaultRubric } from '../../core/rubric/default-rubric.ts';
import { filmPath } from '../films/film-path.ts';
import { classGrades } from '../reading/class-grades.ts';
import { readBoard, readBoardResults, readRanked, readWatchNext } from '../reading/board.ts';
import { readCarryFilm } from '../reading/carry-film.ts';
import { readDirectory, readStudyInfo } from '../reading/directory.ts';
import { readDossier, stillsWanted } from '../reading/dossier.ts';
import { readAgreement } from '../reading/agreement.ts';
import { drawSecondLook, readBlindCarry, readGivenMarks, readSecondLooks } from '../reading/second-look.ts';
import { readSheet } from '../reading/sheet.ts';
import { readSideBySide } from '../reading/side-by-side.ts';
import { readStageGame } from '../reading/stage-game.ts';
import { sealedGame } from '../../contract/sealed-game.ts';
import type { InnerCalls, InnerName } from './inner-calls.ts';
import { removeStudyFiles } from './open.ts';
import { openStudy, type Study } from './study.ts';
import { v7 as uuidv7 } from 'uuid';

/** Calls that the study worker answers. The rest of the contract is answered beside it, where files and windows are. */
export type StudyCall = Exclude<
  CallName,
  | 'files.browse'
  | 'files.pick'
  | 'files.find'
  | 'film.add'
  | 'film.relink'
  | 'dossier.issue'
  | 'preferences.read'
  | 'preferences.write'
>;

export type StudyHandlers = {
  [Name in StudyCall]: (input: CallInput<Name>) => CallOutput<Name>;
} & { [Name in InnerName]: (input: InnerCalls[Name]['input']) => InnerCalls[Name]['output'] };

/** What the worker is told once at its start. `readOnly`: no study is written, whatever the file allows. */
export type StudySurroundings = {
  readonly filmFolders: readonly string[];
  readonly programVersion: string;
  readonly readOnly?: boolean;
};

function sameFile(one: string, other: string): boolean {
  try {
    return realpathSync(one) === realpathSync(other);
  } catch {
    return one === other;
  }
}

function issuedList(study: Study, runnerId: string | null): IssuedView[] {
  return study.database
    .prepare(
      `SELECT id, runner_id AS runnerId, issued_at AS issuedAt, evaluator_name AS evaluatorName, paper,
       html_sha256 AS htmlSha256, pdf IS NOT NULL AS hasPdf FROM issued WHERE ? IS NULL OR runner_id = ? ORDER BY issued_at DESC`,
    )
    .all(runnerId, runnerId)
    .map((found) => {
      const row = found as Omit<IssuedView, 'hasPdf'> & { hasPdf: number };
      return { ...row, hasPdf: row.hasPdf === 1 };
    });
}

/** Makes the table of answers around one study at a time; `now` gives milliseconds since 1970 UTC. */
export function studyHandlers(
  { filmFolders, programVersion, readOnly = false }: StudySurroundings,
  now: () => number,
): StudyHandlers {
  let open: Study | null = null;
  const study = (): Study => {
    if (open === null)
      throw new FaultError(faultOf('no-study', 'No study is open.', 'Open a study or make a new one.'));
    return open;
  };
  const replace = (next: Study): Study => {
    open?.close();
    open = next;
    return next;
  };
  const written = (): Study => {
    const current = study();
    if (current.readOnlyBecause !== null) {
      throw new FaultError(
        faultOf(
          'read-only',
          `This study can only be read. ${current.readOnlyBecause}`,
          'Save a copy where you may write, and open that.',
        ),
      );
    }
    return current;
  };
  const blob = (sql: string, ...values: string[]): Uint8Array | null => {
    const found = study()
      .database.prepare(sql)
      .pluck()
      .get(...values);
    return found instanceof Uint8Array ? found : null;
  };

  return {
    'study.info': () => (open === null ? null : readStudyInfo(open)),
    'study.open'({ path }) {
      // The study that is open already, by whatever path it is named: opening it again would find our own lock.
      if (open !== null && (open.readOnlyBecause === null || readOnly) && sameFile(open.path, path)) {
        return readStudyInfo(open);
      }
      // The new one is opened first: a study that can't be opened leaves the old one in place.
      return readStudyInfo(replace(openStudy(path, { readOnly, now })));
    },
    'study.create'({ path, evaluatorName }) {
      if (readOnly) throw new FaultError(faultOf('read-only', 'Studies are only read here.', 'Make it in the window.'));
      const made = openStudy(path, { create: true, now });
      try {
        made.make({
          by: null,
          label: 'New study',
          steps: [
            add('evaluator', { id: uuidv7(), name: evaluatorName }),
            add('rubricVersion', {
              id: uuidv7(),
              number: 1,
              name: 'Default rubric',
              body: rubricBody.parse(defaultRubric),
              madeAt: now(),
            }),
          ],
        });
      } catch (cause) {
        made.close();
        removeStudyFiles(path);
        throw cause;
      }
      return readStudyInfo(replace(made));
    },
    'directory.read': () => readDirectory(study(), filmFolders),
    'stage.game': ({ gameId }) => readStageGame(study(), gameId),
    'stage.sealed': ({ gameId, time, ...seal }) => sealedGame(readStageGame(study(), gameId), seal, time),
    'change.make': (input) => study().make(input),
    'change.undo': ({ by }) => study().undo(by),
    'change.redo': ({ by }) => study().redo(by),
    'change.history': ({ table, id }) => study().history(table, id),
    'change.state': ({ by }) => study().undoState(by),
    'sheet.read': ({ runnerId, evaluatorId }) => readSheet(study(), runnerId, evaluatorId),
    'board.read': ({ evaluatorId }) => readBoard(study(), evaluatorId),
    'board.rank': ({ evaluatorId, choice }) => readRanked(study(), evaluatorId, choice),
    'board.results': () => readBoardResults(study()),
    'board.watchNext': ({ evaluatorId }) => readWatchNext(study(), evaluatorId),
    'sideBySide.read': ({ firstId, secondId, evaluatorId }) => readSideBySide(study(), firstId, secondId, evaluatorId),
    'carry.film': ({ partId }) => readCarryFilm(study(), partId),
    'secondLook.read': ({ evaluatorId }) => readSecondLooks(study(), evaluatorId, now()),
    'secondLook.draw': (input) => drawSecondLook(study(), input, now()),
    'secondLook.carry': ({ partId }) => readBlindCarry(study(), partId),
    'secondLook.given': ({ lookId, evaluatorId }) => readGivenMarks(study(), lookId, evaluatorId),
    'secondLook.agreement': ({ evaluatorId }) => readAgreement(study(), evaluatorId),
    'dossier.read': ({ runnerId, evaluatorId }) =>
      readDossier(study(), runnerId, evaluatorId, { filmFolders, programVersion, now: now() }),
    'dossier.issued': ({ runnerId }) => issuedList(study(), runnerId),
    'still.missing': ({ runnerId, evaluatorId }) => stillsWanted(study(), runnerId, evaluatorId, filmFolders),
    'still.put'({ filmId, frame, jpegBase64 }) {
      const current = written();
      const film = current.rows.get('film', filmId);
      if (film === undefined)
        throw new FaultError(faultOf('not-found', `There is no film ${filmId}.`, 'Add the film again.'));
      const jpeg = Buffer.from(jpegBase64, 'base64');
      if (frame >= film.frames) {
        throw new FaultError(
          faultOf(
            'bad-input',
            `The film ${film.name} ends at frame ${film.frames - 1}; got a still of frame ${frame}.`,
            'Make the still of a frame the film has.',
          ),
        );
      }
      if (jpeg.length < 4 || jpeg[0] !== 0xff || jpeg[1] !== 0xd8 || jpeg[2] !== 0xff) {
        throw new FaultError(
          faultOf(
            'bad-input',
            `A still is a JPEG picture; got ${jpeg.length} bytes of something else.`,
            'Make the still again.',
          ),
        );
      }
      // Two frames may look alike to the byte (black, a held picture): each keeps a still of its own.
      const place = `${film.fingerprint} ${frame}\n`;
      const stillId = createHash('sha256').update(place).update(jpeg).digest('hex').slice(0, 32);
      current.database
        .prepare('INSERT OR REPLACE INTO still (id, fingerprint, frame, jpeg) VALUES (?, ?, ?, ?)')
        .run(stillId, film.fingerprint, frame, jpeg);
      return { stillId };
    },
    'inner.film'({ filmId }) {
      const film = study().rows.get('film', filmId);
      if (film === undefined)
        throw new FaultError(faultOf('not-found', `There is no film ${filmId} in this study.`, 'Add the film again.'));
      const { path } = study();
      return { film, path: filmPath(film, path, filmFolders), studyFolder: dirname(path) };
    },
    'inner.rows': ({ table }) => study().rows.all(table),
    'inner.frameTable': ({ fingerprint }) => blob('SELECT bytes FROM frame_table WHERE fingerprint = ?', fingerprint),
    'inner.keepFrameTable'({ fingerprint, bytes }) {
      const current = study();
      if (current.readOnlyBecause === null) {
        current.database
          .prepare('INSERT OR REPLACE INTO frame_table (fingerprint, bytes) VALUES (?, ?)')
          .run(fingerprint, bytes);
      }
      return null;
    },
    'inner.still': ({ stillId }) => blob('SELECT jpeg FROM still WHERE id = ?', stillId),
    'inner.keepIssued'({ issued, madeFrom, html, pdf }) {
      written()
        .database.prepare(
          'INSERT INTO issued (id, runner_id, issued_at, evaluator_name, paper, made_from, html_sha256, html, pdf) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)',
        )
        .run(
          issued.id,
          issued.runnerId,
          issued.issuedAt,
          issued.evaluatorName,
          issued.paper,
          JSON.stringify(madeFrom),
          issued.htmlSha256,
          Buffer.from(html),
          pdf,
        );
      return null;
    },
    'inner.issuedFile': ({ id, kind }) =>
      kind === 'html'
        ? blob('SELECT html FROM issued WHERE id = ?', id)
        : blob('SELECT pdf FROM issued WHERE id = ?', id),
    'inner.issuedSource'({ id }) {
      const found = study().database.prepare('SELECT made_from AS madeFrom, paper FROM issued WHERE id = ?').get(id);
      if (found === undefined) return null;
      const { madeFrom, paper } = found as { madeFrom: string; paper: 'A4' | 'Letter' };
      return { madeFrom: JSON.parse(madeFrom), paper };
    },
    'inner.warm'() {
      if (open === null) return null;
      for (const { id } of open.rows.all('evaluator').slice(0, 3)) classGrades(open, id);
      return null;
    },
    'inner.close'() {
      open?.close();
      open = null;
      return null;
    },
  };
}
