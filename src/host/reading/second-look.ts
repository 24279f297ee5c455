/** The blind side of Second look: what can be drawn, the drawing, and a carry without anything judged of it. */
import {
  blindCarry,
  secondLookOf,
  type BlindCarry,
  type GivenMark,
  type SecondLookPlan,
  type SecondLookState,
} from '../../contract/second-look-views.ts';
import { faultOf, FaultError } from '../../contract/faults.ts';
import { daysBeforeSecondLook, secondLookPlan, type MarkedCarry } from '../../core/agreement/second-look-plan.ts';
import { known, type Known } from '../../core/known.ts';
import { randomFrom } from '../../core/random.ts';
import type { Study } from '../study/study.ts';
import { readCarryFilm } from './carry-film.ts';
import { gameLabel } from './directory.ts';

type Look = SecondLookPlan & { readonly id: string };

/** Every second look of the study, in the order they were drawn; by one evaluator, or null: by all. */
export function looksOf(study: Study, evaluatorId: string | null): Look[] {
  return study.rows
    .all('setting')
    .flatMap((setting) => secondLookOf(setting) ?? [])
    .filter((look) => evaluatorId === null || look.evaluatorId === evaluatorId)
    .toSorted((a, b) => a.drawnAt - b.drawnAt || a.id.localeCompare(b.id));
}

/** Carries that stand in a look of this evaluator that is not finished: their marks are not to be seen yet. */
export function partsUnderLook(study: Study, evaluatorId: string): ReadonlySet<string> {
  return new Set(looksOf(study, evaluatorId).flatMap((look) => (look.finishedAt === null ? look.parts : [])));
}

/** Carries on film that `whoseId` marked at first look, with when either of the two last marked them. No mark comes along. */
function markedCarries(study: Study, evaluatorId: string, whoseId: string): MarkedCarry[] {
  const underLook = partsUnderLook(study, evaluatorId);
  const found = study.database
    .prepare(
      `SELECT p.id AS carry, max(m.marked_at) AS markedAt FROM part p
       JOIN mark m ON m.part_id = p.id AND m.evaluator_id IN (@whose, @own)
       WHERE p.kind = 'run' AND EXISTS (SELECT 1 FROM span s WHERE s.play_id = p.play_id)
       AND EXISTS (SELECT 1 FROM mark f WHERE f.part_id = p.id AND f.evaluator_id = @whose AND f.look_id IS NULL)
       GROUP BY p.id ORDER BY p.id`,
    )
    .all({ whose: whoseId, own: evaluatorId }) as MarkedCarry[];
  return found.filter(({ carry }) => !underLook.has(carry));
}

/** What can be drawn from each evaluator's carries, and this evaluator's looks with their progress. `now` in ms since 1970. */
export function readSecondLooks(study: Study, evaluatorId: string, now: number): SecondLookState {
  const evaluators = study.rows.all('evaluator');
  const names = new Map(evaluators.map(({ id, name }) => [id, name]));
  const progress = study.database.prepare(
    'SELECT count(DISTINCT part_id) AS marked, count(*) AS marks FROM mark WHERE look_id = ? AND evaluator_id = ?',
  );
  return {
    offers: evaluators.map(({ id, name }) => {
      const carries = markedCarries(study, evaluatorId, id);
      return {
        evaluatorId: id,
        name,
        marked: carries.length,
        old: carries.filter(({ markedAt }) => now - markedAt >= daysBeforeSecondLook * 86_400_000).length,
        days: daysBeforeSecondLook,
      };
    }),
    looks: looksOf(study, evaluatorId).map(({ evaluatorId: _own, seed: _seed, ...look }) => {
      const { marked, marks } = progress.get(look.id, evaluatorId) as { marked: number; marks: number };
      return { ...look, whose: names.get(look.whoseId) ?? 'an evaluator no longer here', marked, marks };
    }),
  };
}

/** Draws a blind sample by core's plan from `whoseId`'s carries; nothing is written. Reasons and throws as secondLookPlan. */
export function drawSecondLook(
  study: Study,
  wanted: { readonly evaluatorId: string; readonly whoseId: string; readonly count: number; readonly seed: number },
  now: number,
): Known<{ parts: string[]; days: number }, 'nothing old enough'> {
  const { evaluatorId, whoseId, count, seed } = wanted;
  const plan = secondLookPlan(markedCarries(study, evaluatorId, whoseId), count, now, randomFrom(seed));
  return plan.known ? known({ parts: [...plan.value], days: daysBeforeSecondLook }) : plan;
}

/** A carry as it may be seen blind. Throws a FaultError for no such carry. */
export function readBlindCarry(study: Study, partId: string): BlindCarry {
  const { spans, moments } = readCarryFilm(study, partId);
  const part = study.rows.get('part', partId);
  const play = part === undefined ? undefined : study.rows.get('play', part.playId);
  const game = play === undefined ? undefined : study.rows.get('game', play.gameId);
  if (part === undefined || play === undefined || game === undefined) {
    throw new FaultError(
      faultOf('not-found', `There is no carry ${partId} in this study.`, 'Go on to the next carry.'),
    );
  }
  const teams = new Map(study.rows.all('team').map(({ id, name }) => [id, name]));
  const { note: _note, gain: _gain, result: _result, penalty: _penalty, penaltyYards: _yards, ...before } = play;
  return blindCarry.parse({
    play: before,
    part: { id: part.id, playId: part.playId, runnerId: part.runnerId },
    runner: study.rows.get('runner', part.runnerId)?.name ?? 'a runner no longer here',
    game: gameLabel(game, (id) => teams.get(id) ?? 'unknown team'),
    spans,
    moments,
  });
}

/** The marks that this evaluator gave in this look itself; first looks and other looks never come. */
export function readGivenMarks(study: Study, lookId: string, evaluatorId: string): GivenMark[] {
  return study.database
    .prepare(
      `SELECT id, part_id AS partId, trait, state, value FROM mark WHERE look_id = ? AND evaluator_id = ?
       ORDER BY marked_at, id`,
    )
    .all(lookId, evaluatorId) as GivenMark[];
}
