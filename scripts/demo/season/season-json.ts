import { FILM } from '../field-measure.ts';
import type { FilmPlan } from '../film-plan.ts';
import { spanMoments, spanSteps } from '../truth.ts';
import { backAlignment, chartCarry, chartPlay } from './chart.ts';
import { chalkOf, ledgerOf, type Showing } from './ledger.ts';
import { marksOf, TRAITS } from './marks.ts';
import { EVALUATORS, RUNNERS, TEAMS } from './people.ts';
import type { GameRow } from './rows.ts';
import type { LivePlay } from './series.ts';
import { VERDICTS } from './verdicts.ts';

type Played = { readonly game: GameRow; readonly plays: readonly LivePlay[] };

function showingsOf(play: LivePlay, plans: readonly FilmPlan[]): Showing[] {
  return plans.flatMap((plan) =>
    plan.segments
      .filter((segment) => segment.play?.id === play.id && segment.kind === 'play')
      .map((segment) => ({ plan, segment })),
  );
}

function spansOf(play: LivePlay, plans: readonly FilmPlan[]): Record<string, unknown>[] {
  return plans.flatMap((plan) =>
    plan.segments
      .filter((segment) => segment.play?.id === play.id)
      .map((segment) => ({
        filmId: plan.id,
        angle: plan.angle,
        kind: segment.kind === 'replay' ? 'replay' : 'live',
        timeScale: segment.timeScale,
        inFrame: segment.inFrame,
        outFrame: segment.outFrame,
        moments: spanMoments(segment),
        steps: play.row.kind === 'carry' ? spanSteps(segment) : [],
      })),
  );
}

function partsOf(game: GameRow, play: LivePlay, plans: readonly FilmPlan[]): Record<string, unknown>[] {
  const { row } = play;
  const common = { runnerId: row.runner, ...backAlignment(play), ...(row.note ? { note: row.note } : {}) };
  if (row.kind === 'pass') {
    return [{ ...common, kind: row.part, countsInResults: false, why: 'not a carry', marks: [] }];
  }
  const showings = showingsOf(play, plans);
  return [
    {
      ...common,
      kind: 'run',
      countsInResults: row.penalty === undefined,
      ...(row.penalty ? { why: `no play: ${row.penalty.name}` } : {}),
      ...chartCarry(play, row),
      ledger: ledgerOf(play, row, showings),
      marks: marksOf(play, row, game.date, showings),
    },
  ];
}

function playJson(game: GameRow, play: LivePlay, plans: readonly FilmPlan[]): Record<string, unknown> {
  const { row, series } = play;
  const showing = showingsOf(play, plans)[0];
  const defence = series.offence === game.home ? game.away : game.home;
  return {
    id: play.id,
    gameId: game.id,
    number: play.number,
    series: play.seriesNumber,
    seriesPlay: play.seriesPlay,
    quarter: series.quarter,
    clockSeconds: play.clockSeconds,
    awayScore: series.awayScore,
    homeScore: series.homeScore,
    offenceTeamId: series.offence,
    defenceTeamId: defence,
    drivesOnFilm: series.drive === 1 ? 'left to right' : 'right to left',
    ...chartPlay(play),
    comeBack: row.kind === 'carry' && row.obscured === true,
    spans: spansOf(play, plans),
    parts: partsOf(game, play, plans),
    chalk: row.kind === 'carry' && row.note && showing ? chalkOf(play, row, showing) : [],
  };
}

function filmJson(plan: FilmPlan): Record<string, unknown> {
  return {
    id: plan.id,
    gameId: plan.game.id,
    angle: plan.angle,
    file: `films/${plan.id}.mp4`,
    truthFile: `truth/${plan.id}.json.gz`,
    widthPixels: FILM.width,
    heightPixels: FILM.height,
    frameRate: { numerator: FILM.numerator, denominator: FILM.denominator },
    frameCount: plan.frameCount,
    scoreCards: plan.segments
      .filter((segment) => segment.kind === 'card')
      .map(({ inFrame, outFrame }) => ({ inFrame, outFrame })),
    transitions: plan.transitions,
  };
}

/** The whole season as plain data: the source from which the demo study is made. */
export function seasonJson(played: readonly Played[], plans: readonly FilmPlan[]): Record<string, unknown> {
  return {
    format: 'creasebook demo season',
    version: 1,
    licence: 'MIT. Every school, runner, evaluator, game, play and mark here is invented.',
    traits: TRAITS,
    teams: TEAMS,
    runners: RUNNERS,
    evaluators: EVALUATORS,
    games: played.map(({ game }) => ({
      id: game.id,
      season: game.season,
      week: game.week,
      date: game.date,
      awayTeamId: game.away,
      homeTeamId: game.home,
      awayScore: game.finalAwayScore,
      homeScore: game.finalHomeScore,
      loggedInPart: game.loggedInPart,
      note: game.note,
      officialLines: game.officialLines,
    })),
    films: plans.map(filmJson),
    plays: played.flatMap(({ game, plays }) => plays.map((play) => playJson(game, play, plans))),
    verdicts: VERDICTS,
  };
}
