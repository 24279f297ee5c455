import { offenceMatrix, project } from '../camera.ts';
import { FIELD } from '../field-measure.ts';
import { filmFrame, type FilmPlan, type Segment } from '../film-plan.ts';
import { cameraAt } from '../pictures.ts';
import { seeded, seedFrom } from '../seed.ts';
import { chartedGap } from './chart.ts';
import { gapWidth } from './carry.ts';
import type { CarryRow, GapName } from './rows.ts';
import type { LivePlay } from './series.ts';

/** A live segment of a play on one film. */
export type Showing = { readonly plan: FilmPlan; readonly segment: Segment };

const tenth = (value: number): number => Math.round(value * 10) / 10;

/** Projects field places (as the offence counts) into a film's picture at a play frame; pixels to a tenth. */
export function onPicture(
  showing: Showing,
  play: LivePlay,
  playFrame: number,
  places: readonly (readonly [number, number])[],
): [number, number][] {
  const matrix = offenceMatrix(cameraAt({ segment: showing.segment, at: playFrame }), play.staged.setting.drive);
  return places.map(([x, y]) => {
    const [px, py] = project(matrix, [x, y, 0.02]);
    return [tenth(px), tenth(py)];
  });
}

type LaneIdea = {
  readonly gap: GapName;
  readonly state: 'open' | 'closing' | 'filled';
  readonly likely: number;
  readonly taken: boolean;
};

function ideas(row: CarryRow, next: () => number): LaneIdea[] {
  const contact = row.contact ?? Math.min(row.gain, 9);
  const scatter = Math.round((next() - 0.5) * 3);
  const takenLikely = Math.max(0, Math.min(8, Math.round(contact * 0.55 + row.gain * 0.2 + 1) + scatter));
  const better =
    row.decision === 'poor'
      ? 3 + Math.round(next())
      : row.decision === 'fair'
        ? 1 - Math.round(next() * 2)
        : -2 - Math.round(next());
  const wide = row.concept === 'outside zone' || row.concept === 'toss';
  const taken: LaneIdea = {
    gap: row.hit,
    state: row.decision === 'poor' ? 'closing' : 'open',
    likely: takenLikely,
    taken: true,
  };
  const otherGap: GapName =
    row.hit !== row.designed ? row.designed : wide ? 'B' : row.designed === 'A' ? 'back A' : 'back A';
  const other: LaneIdea = {
    gap: otherGap,
    state: better > 0 ? 'open' : better < -1 ? 'filled' : 'closing',
    likely: Math.max(-1, takenLikely + better),
    taken: false,
  };
  const third: LaneIdea = {
    gap: wide ? 'back A' : row.designed === 'C' ? 'D' : 'C',
    state: 'filled',
    likely: Math.max(-1, Math.min(takenLikely, takenLikely + Math.min(better, 0)) - 2),
    taken: false,
  };
  const lanes = [taken, other, ...(third.gap !== taken.gap && third.gap !== other.gap && next() < 0.6 ? [third] : [])];
  return lanes;
}

/** The lanes of one carry at its decision frame: what each was worth (made without the result) and where it lay on film. */
export function ledgerOf(play: LivePlay, row: CarryRow, showings: readonly Showing[]): Record<string, unknown> {
  const decision = play.staged.moves.moments.decision ?? 0;
  const next = seeded(seedFrom(`${play.id} lanes`));
  const start = play.staged.places.RB[decision] ?? [play.spotYards, play.ballY];
  const side = play.script.side === 'right' ? 1 : -1;
  const toGoal = FIELD.length - play.spotYards;
  const lanes = ideas(row, next).map((idea, at) => {
    const y = play.ballY + side * gapWidth(idea.gap);
    const out = play.ballY + side * (gapWidth(idea.gap) * 1.12 + Math.sign(gapWidth(idea.gap)) * 0.3);
    const fieldPath: [number, number][] = [
      [tenth(start[0]), tenth(start[1])],
      [tenth(play.spotYards + 0.3), tenth(y)],
      [tenth(Math.min(108, play.spotYards + 4)), tenth(out)],
    ];
    const spread = idea.state === 'open' ? 6 : idea.state === 'closing' ? 4 : 3;
    return {
      id: `${play.id}-lane-${at + 1}`,
      name: laneName(idea.gap, play),
      ...chartedGap(idea.gap, play.script.side),
      state: idea.state,
      lowYards: Math.max(-3, idea.likely - (idea.state === 'filled' ? 2 : 2 + Math.round(next()))),
      likelyYards: Math.min(toGoal, idea.likely),
      highYards: Math.min(toGoal, idea.likely + spread + Math.round(next() * 2)),
      taken: idea.taken,
      fieldPath,
      paths: showings.map((showing) => ({
        filmId: showing.plan.id,
        frame: filmFrame(showing.segment, decision),
        points: onPicture(showing, play, decision, fieldPath),
      })),
    };
  });
  return { sealed: play.number % 3 === 0, lanes };
}

function laneName(gap: GapName, play: LivePlay): string {
  const charted = chartedGap(gap, play.script.side);
  if (charted.gap === 'D') return `outside the ${charted.side} end`;
  return `${charted.side} ${charted.gap} gap`;
}

/** Chalk for a carry: the way he went from press to the line, a ring on the man he reads, and a word at the plant. */
export function chalkOf(play: LivePlay, row: CarryRow, showing: Showing): Record<string, unknown>[] {
  const { press, plant, cut, decision } = play.staged.moves.moments;
  if (press === undefined || plant === undefined || cut === undefined || decision === undefined) return [];
  const path = play.staged.places.RB;
  const trail = [press, plant, cut, cut + 8].flatMap((frame) => {
    const place = path[Math.min(path.length - 1, frame)];
    return place ? [place] : [];
  });
  const read = play.staged.places[row.by ?? 'MIKE'][decision] ?? [0, 0];
  const frame = (at: number): number | undefined => filmFrame(showing.segment, at);
  const plantPlace = path[plant] ?? [0, 0];
  return [
    {
      kind: 'arrow',
      filmId: showing.plan.id,
      inFrame: frame(decision),
      outFrame: frame(plant),
      frame: frame(decision),
      points: onPicture(showing, play, decision, trail),
    },
    {
      kind: 'ring',
      filmId: showing.plan.id,
      inFrame: frame(decision),
      outFrame: frame(plant),
      frame: frame(decision),
      points: onPicture(showing, play, decision, [read]),
      radiusPixels: 38,
    },
    ...(row.feet === 'wasteful'
      ? [
          {
            kind: 'text',
            filmId: showing.plan.id,
            inFrame: frame(plant),
            outFrame: frame(cut),
            frame: frame(plant),
            points: onPicture(showing, play, plant, [[plantPlace[0], plantPlace[1] + 1.5]]),
            text: 'short steps',
          },
        ]
      : []),
  ];
}
