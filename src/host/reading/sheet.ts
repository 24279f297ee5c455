import { faultOf, FaultError } from '../../contract/faults.ts';
import type { GradeView, SheetView } from '../../contract/views.ts';
import { successOverExpected } from '../../core/expectation/delta.ts';
import { yardstickOf } from '../../core/expectation/yardstick.ts';
import type { CoveredGrade, Grade } from '../../core/grades/grade.ts';
import { mapKnown } from '../../core/known.ts';
import { completeness, unlogged, type GameLine } from '../../core/plays/completeness.ts';
import { gameLabel } from './directory.ts';
import { carryView, readCarries, settingsOf, type LoggedCarry } from './carries.ts';
import { classGrades, newestRubric } from './class-grades.ts';
import { deltaOfCarries, rateOfCarries, residualsOf } from './carry-results.ts';
import { splitsOf } from './splits.ts';
import { thinInWords } from './thin.ts';
import type { Study } from '../study/study.ts';

function gradeView({
  grade,
  low,
  high,
  information,
  effective,
  marks,
  carries,
  games,
  thin,
  chance,
  assumed,
}: Grade): GradeView {
  return {
    grade,
    low,
    high,
    information,
    effective,
    marks,
    carries,
    games,
    thin,
    chance: { ...chance },
    assumed: [...assumed],
  };
}
const coveredView = (grade: CoveredGrade): GradeView & { coverage: number } => ({
  ...gradeView(grade),
  coverage: grade.coverage,
});

function gameLines(study: Study, runnerId: string, carries: readonly LoggedCarry[]): SheetView['games'] {
  const teams = new Map(study.rows.all('team').map((team) => [team.id, team.name]));
  const lines = new Map(study.rows.where('officialLine', 'runnerId', runnerId).map((row) => [row.gameId, row]));
  const ids = new Set([...carries.map(({ game }) => game.id), ...lines.keys()]);
  return study.rows
    .all('game')
    .filter(({ id }) => ids.has(id))
    .toSorted((a, b) => (a.season ?? 0) - (b.season ?? 0) || (a.week ?? 0) - (b.week ?? 0))
    .map((game) => {
      const own = carries.filter((carry) => carry.game.id === game.id);
      const official = lines.get(game.id);
      return {
        gameId: game.id,
        label: gameLabel(game, (id) => teams.get(id) ?? 'unknown team'),
        logged: own.length,
        gain: own.reduce((sum, { part }) => sum + (part.gain ?? 0), 0),
        official: official?.attempts ?? null,
        officialYards: official?.yards ?? null,
      };
    });
}

/** Everything known of one runner, by one evaluator's marks (null: all evaluators'). Throws a FaultError for no such runner. */
export function readSheet(study: Study, runnerId: string, evaluatorId: string | null): SheetView {
  const runner = study.rows.get('runner', runnerId);
  if (runner === undefined) {
    throw new FaultError(
      faultOf('not-found', `There is no runner ${runnerId} in this study.`, 'Choose a runner from the list.'),
    );
  }
  const rubric = newestRubric(study);
  const settings = settingsOf(study);
  const { model, rule } = yardstickOf(settings);
  const carries = readCarries(study, runnerId, evaluatorId);
  const counted = carries.filter(({ part }) => part.counts);
  const own = classGrades(study, evaluatorId).runners[runnerId];
  const games = gameLines(study, runnerId, carries);
  const bookGames: GameLine[] = games.map((game) => ({
    logged: game.logged,
    loggedYards: game.gain,
    official: game.official,
    officialYards: game.officialYards,
  }));
  const none = { known: false, because: 'no marks', detail: 'Nothing is marked on any carry.' } as const;
  const families = rubric.body.families.map((family) => ({
    key: family.key,
    name: family.name,
    weight: family.weight,
    grade: mapKnown(own?.families[family.key] ?? none, coveredView),
    traits: family.traits.map((trait) => {
      const states = counted.map(({ marks }) => marks.findLast((mark) => mark.trait === trait.key)?.state ?? null);
      return {
        key: trait.key,
        name: trait.name,
        weight: trait.weight,
        grade: mapKnown(own?.traits[trait.key] ?? none, gradeView),
        shown: states.filter((state) => state === 'shown').length,
        notShown: states.filter((state) => state === 'not shown').length,
        unseen: states.filter((state) => state === 'unseen').length,
        unlooked: states.filter((state) => state === null).length,
      };
    }),
  }));
  const complete = completeness(bookGames);
  const sheet: SheetView = {
    runner,
    team: runner.teamId === null ? null : (study.rows.get('team', runner.teamId)?.name ?? null),
    evaluator: evaluatorId === null ? null : (study.rows.get('evaluator', evaluatorId)?.name ?? null),
    rubric: { id: rubric.id, number: rubric.number, name: rubric.name, body: rubric.body },
    carries: carries.map(carryView),
    games,
    completeness: complete,
    successRule: rule.name,
    model: model.name,
    success: rateOfCarries(counted),
    delta: deltaOfCarries(counted, study),
    successOverExpected: mapKnown(
      successOverExpected(residualsOf(counted), model.spread.success),
      ({ mean, shrunk, n }) => ({ mean, shrunk, n }),
    ),
    overall: mapKnown(own?.overall ?? none, coveredView),
    families,
    splits: splitsOf(counted, study),
    history: historyOf(counted, games),
    thin: [],
  };
  return { ...sheet, thin: thinInWords(sheet, unlogged(bookGames)) };
}

/** Plain means of the marks by game and trait: what was seen, before anything is pooled. */
function historyOf(carries: readonly LoggedCarry[], games: SheetView['games']): SheetView['history'] {
  return games.flatMap(({ gameId, label }) => {
    const byTrait = new Map<string, number[]>();
    for (const { marks } of carries.filter(({ game }) => game.id === gameId)) {
      for (const { trait, value } of marks)
        if (value !== null) byTrait.set(trait, [...(byTrait.get(trait) ?? []), value]);
    }
    return [...byTrait].map(([trait, values]) => ({
      gameId,
      label,
      trait,
      mean: values.reduce((sum, value) => sum + value, 0) / values.length,
      marks: values.length,
    }));
  });
}
