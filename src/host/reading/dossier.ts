import { existsSync } from 'node:fs';
import { basename } from 'node:path';
import { runInWords, situationInWords } from '../../contract/play-in-words.ts';
import type { Writeup } from '../../contract/rows.ts';
import type { DossierView, EvidenceView } from '../../contract/views.ts';
import { filmPath } from '../films/film-path.ts';
import type { Study } from '../study/study.ts';
import { readCarries, type LoggedCarry } from './carries.ts';
import { readSheet } from './sheet.ts';

type Wanted = {
  readonly carry: LoggedCarry;
  readonly spanId: string;
  readonly frame: number;
  readonly caption: string;
  readonly against: boolean;
};

function writeupOf(study: Study, runnerId: string, evaluatorId: string | null): Writeup | null {
  const all = study.rows.where('writeup', 'runnerId', runnerId);
  return all.find((writeup) => writeup.evaluatorId === evaluatorId) ?? (evaluatorId === null ? (all[0] ?? null) : null);
}

/** The chosen evidence; before any is chosen, the first three cited carries at their decision, plant or first frame. */
function evidenceWanted(study: Study, writeup: Writeup | null, carries: readonly LoggedCarry[]): Wanted[] {
  const byPart = new Map(carries.map((carry) => [carry.part.id, carry]));
  const chosen = (writeup?.evidence ?? []).flatMap(({ partId, spanId, frame, caption, against }) => {
    const carry = byPart.get(partId);
    return carry === undefined ? [] : [{ carry, spanId, frame, caption, against }];
  });
  if (chosen.length > 0) return chosen;
  const cited = (writeup?.verdict ?? []).flatMap(({ cites, against }) => [
    ...cites.slice(0, 1).map((partId) => ({ partId, against: false })),
    ...against.slice(0, 1).map((partId) => ({ partId, against: true })),
  ]);
  const seen = new Set<string>();
  return cited.flatMap(({ partId, against }) => {
    const carry = byPart.get(partId);
    const span = carry?.spans.find(({ kind }) => kind === 'live') ?? carry?.spans[0];
    if (carry === undefined || span === undefined || seen.has(partId) || seen.size >= 3) return [];
    seen.add(partId);
    const moments = study.rows.where('moment', 'spanId', span.id);
    const at = moments.find(({ name }) => name === 'decision') ?? moments.find(({ name }) => name === 'plant');
    return [{ carry, spanId: span.id, frame: at?.frame ?? span.inFrame, caption: carry.part.note ?? '', against }];
  });
}

/** Frames of this runner's evidence of which the study has no still yet, and whose film is there to make one from. */
export function stillsWanted(
  study: Study,
  runnerId: string,
  evaluatorId: string | null,
  filmFolders: readonly string[],
): { filmId: string; frame: number }[] {
  const writeup = writeupOf(study, runnerId, evaluatorId);
  return evidenceWanted(study, writeup, readCarries(study, runnerId, null)).flatMap(({ spanId, frame }) => {
    const span = study.rows.get('span', spanId);
    const film = span === undefined ? undefined : study.rows.get('film', span.filmId);
    if (film === undefined || stillOf(study, film.fingerprint, frame) !== null) return [];
    const path = filmPath(film, study.path, filmFolders);
    return path !== null && existsSync(path) ? [{ filmId: film.id, frame }] : [];
  });
}

function stillOf(study: Study, fingerprint: string, frame: number): string | null {
  const found = study.database
    .prepare('SELECT id FROM still WHERE fingerprint = ? AND frame = ?')
    .pluck()
    .get(fingerprint, frame);
  return typeof found === 'string' ? found : null;
}

function evidenceView(study: Study, wanted: Wanted, filmFolders: readonly string[]): EvidenceView[] {
  const { carry, spanId, frame, caption, against } = wanted;
  const span = study.rows.get('span', spanId);
  const film = span === undefined ? undefined : study.rows.get('film', span.filmId);
  if (span === undefined || film === undefined) return [];
  const stillId = stillOf(study, film.fingerprint, frame);
  const gone = filmPath(film, study.path, filmFolders) === null;
  const missing =
    stillId !== null
      ? null
      : gone
        ? `The film ${film.name} was not found when this was printed, and no still of frame ${frame} was kept.`
        : `No still of frame ${frame} has been made yet.`;
  const chalk = study.rows
    .where('chalk', 'spanId', spanId)
    .filter(({ fromFrame, toFrame }) => fromFrame <= frame && frame <= toFrame)
    .map(({ kind, points, text }) => ({ kind, points, text }));
  const shown = carryWords(carry);
  return [
    {
      number: carry.number,
      partId: carry.part.id,
      heading: shown,
      caption,
      against,
      filmId: film.id,
      frame,
      stillId,
      missing,
      picture: { width: film.width, height: film.height, chalk },
    },
  ];
}

function carryWords({ play, part }: LoggedCarry): string {
  return `${situationInWords(play)}, ${runInWords(play, part)}`.slice(0, 200);
}

/** Everything one dossier is made from. `now` is milliseconds since 1970 UTC. Throws a FaultError for no such runner. */
export function readDossier(
  study: Study,
  runnerId: string,
  evaluatorId: string | null,
  { filmFolders, programVersion, now }: { filmFolders: readonly string[]; programVersion: string; now: number },
): DossierView {
  const sheet = readSheet(study, runnerId, evaluatorId);
  const carries = readCarries(study, runnerId, evaluatorId);
  const writeup = writeupOf(study, runnerId, evaluatorId);
  const numbers = new Map(carries.map(({ part, number }) => [part.id, number]));
  const numbersOf = (parts: readonly string[]): number[] =>
    parts.flatMap((partId) => numbers.get(partId) ?? []).toSorted((a, b) => a - b);
  const author = writeup === null ? undefined : study.rows.get('evaluator', writeup.evaluatorId);
  return {
    sheet,
    studyName: basename(study.path)
      .replace(/\.creasebook$/, '')
      .slice(0, 200),
    evaluatorName:
      (evaluatorId === null ? author?.name : study.rows.get('evaluator', evaluatorId)?.name) ?? 'all evaluators',
    date: new Date(now).toISOString().slice(0, 10),
    programVersion,
    writeupId: writeup !== null && writeup.evaluatorId === evaluatorId ? writeup.id : null,
    role: writeup?.role ?? null,
    fit: writeup?.fit ?? null,
    change: writeup?.change ?? null,
    verdict: (writeup?.verdict ?? []).map(({ text, cites, against }) => ({
      text,
      cites: numbersOf(cites),
      against: numbersOf(against),
    })),
    evidence: evidenceWanted(study, writeup, carries).flatMap((wanted) => evidenceView(study, wanted, filmFolders)),
  };
}
