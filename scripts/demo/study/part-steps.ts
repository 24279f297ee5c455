import { add, type ChangeStep } from '../../../src/contract/changes.ts';
import { chalkKinds, holdsAnswers, markStates, momentNames } from '../../../src/contract/words.ts';
import type { SeasonMark, SeasonPart, SeasonPlay } from './season.ts';

type Makers = {
  readonly idOf: (kind: string, name: string) => string;
  readonly timeOf: (filmId: string, frame: number) => number;
  readonly rubricId: string;
};
type LabelledSteps = { readonly by: string; readonly label: string; readonly steps: ChangeStep[] };

const stateOf = (word: string): (typeof markStates)[number] =>
  word === 'shown' || word === 'not shown' ? word : 'unseen';
const answerOf = (word: string): (typeof holdsAnswers)[number] =>
  word === 'yes' || word === 'no' ? word : 'cannot tell';

/** What hangs on one play of the season: parts, moments, feet, lanes, chalk and marks, as the changes that add them. */
export function partSteps(play: SeasonPlay, { idOf, timeOf, rubricId }: Makers): LabelledSteps[] {
  const spanId = (index: number): string => idOf('span', `${play.id} ${index}`);
  const spanOn = (filmId: string, frame: number): number =>
    play.spans.findIndex((span) => span.filmId === filmId && span.inFrame <= frame && frame <= span.outFrame);
  const partId = (part: SeasonPart): string => idOf('part', `${play.id} ${part.runnerId}`);
  const done: LabelledSteps[] = [];
  const [first] = play.parts;

  const partRows = play.parts.map((part) =>
    add('part', {
      id: partId(part),
      playId: idOf('play', play.id),
      runnerId: idOf('runner', part.runnerId),
      kind: part.kind,
      counts: part.countsInResults,
      countsBecause: part.why ?? null,
      gain: part.kind === 'run' ? (part.gainYards ?? null) : null,
      hitGap: part.kind === 'run' ? (play.hitGap?.gap ?? null) : null,
      path: part.path ?? null,
      pointOfAttack: part.kind === 'run' ? (play.pointOfAttack ?? null) : null,
      penetration:
        part.kind !== 'run'
          ? null
          : play.penetration === undefined
            ? 'none'
            : play.penetration.depthYards >= 2
              ? 'early'
              : 'late',
      readDefender: play.readDefender?.who ?? null,
      readSource: play.readDefender?.certainty ?? null,
      freeDefender: play.freeDefender?.who ?? null,
      failedBlock: play.freeDefender?.failedBlockBy ?? null,
      clearedYards: part.clearedYards ?? null,
      contactAt: part.firstContactSlot === undefined ? null : (part.yardsBeforeContact ?? null),
      contactBy: part.firstContactSlot ?? null,
      contactPlace: part.firstContactWhere ?? null,
      missedTackles: part.missedTackles ?? null,
      ballArm: part.ballArm ?? null,
      fumble: part.fumble ?? null,
      outOfBounds: part.outOfBounds === 'no' ? 'none' : (part.outOfBounds ?? null),
      comeBack: play.comeBack,
      note: part.note ?? null,
    }),
  );
  const moments = play.spans.flatMap((span, index) =>
    momentNames.flatMap((name) => {
      const frame = span.moments[name];
      if (frame === undefined || first === undefined) return [];
      return [
        add('moment', {
          id: idOf('moment', `${play.id} ${index} ${name}`),
          spanId: spanId(index),
          partId: name === 'snap' ? null : partId(first),
          name,
          frame,
          time: timeOf(span.filmId, frame),
        }),
      ];
    }),
  );
  const feet = play.spans.flatMap((span, index) =>
    first === undefined
      ? []
      : span.steps
          .filter(({ frame }) => frame >= span.inFrame && frame <= span.outFrame)
          .map(({ frame, foot, x, y }) =>
            add('step', {
              id: idOf('step', `${play.id} ${index} ${frame} ${foot}`),
              spanId: spanId(index),
              partId: partId(first),
              foot: foot === 'L' ? 'left' : 'right',
              frame,
              time: timeOf(span.filmId, frame),
              fieldX: x,
              fieldY: y,
            }),
          ),
  );
  done.push({
    by: 'amari',
    label: `Parts, moments and feet of play ${play.number}`,
    steps: [...partRows, ...moments, ...feet],
  });

  for (const part of play.parts) {
    const lanes = part.ledger?.lanes ?? [];
    const [at] = lanes[0]?.paths ?? [];
    if (at !== undefined) {
      const index = spanOn(at.filmId, at.frame);
      const decisionId = idOf('decision', `${play.id} ${part.runnerId}`);
      done.push({
        by: 'amari',
        label: `Lanes of play ${play.number}`,
        steps: [
          add('decision', {
            id: decisionId,
            partId: partId(part),
            evaluatorId: idOf('evaluator', 'amari'),
            spanId: spanId(index),
            frame: at.frame,
            time: timeOf(at.filmId, at.frame),
            sealed: part.ledger?.sealed ?? false,
          }),
          ...lanes.map((lane, position) =>
            add('lane', {
              id: idOf('lane', lane.id),
              decisionId,
              position: position + 1,
              name: lane.name,
              state: lane.state,
              low: lane.lowYards,
              likely: lane.likelyYards,
              high: lane.highYards,
              taken: lane.taken,
              path: (lane.paths.find(({ filmId }) => filmId === at.filmId)?.points ?? []).map(
                ([x, y]) => [x, y] as [number, number],
              ),
            }),
          ),
        ],
      });
    }
    if (part.holdsUp !== undefined) {
      done.push({
        by: 'amari',
        label: `Holds against professional pursuit, play ${play.number}`,
        steps: [
          add('holding', {
            id: idOf('holding', `${play.id} ${part.runnerId}`),
            partId: partId(part),
            evaluatorId: idOf('evaluator', 'amari'),
            answer: answerOf(part.holdsUp.answer),
            because: part.holdsUp.because,
          }),
        ],
      });
    }
    const markStep = (mark: SeasonMark): ChangeStep => {
      const index = spanOn(mark.filmId, mark.frame);
      return add('mark', {
        id: idOf('mark', `${play.id} ${part.runnerId} ${mark.evaluatorId} ${mark.trait} ${mark.look}`),
        partId: partId(part),
        evaluatorId: idOf('evaluator', mark.evaluatorId),
        rubricVersionId: rubricId,
        lookId: mark.look === 'second' ? idOf('look', `${mark.evaluatorId} ${mark.markedOn}`) : null,
        trait: mark.trait,
        state: stateOf(mark.state),
        value: mark.value ?? null,
        clearness: mark.clearness ?? 'clear',
        note: mark.note ?? null,
        spanId: index < 0 ? null : spanId(index),
        frame: index < 0 ? null : mark.frame,
        time: index < 0 ? null : timeOf(mark.filmId, mark.frame),
        markedAt: Date.parse(`${mark.markedOn}T21:00:00Z`),
      });
    };
    for (const evaluator of new Set((part.marks ?? []).map(({ evaluatorId }) => evaluatorId))) {
      done.push({
        by: evaluator,
        label: `Marks of play ${play.number}`,
        steps: (part.marks ?? []).filter(({ evaluatorId }) => evaluatorId === evaluator).map(markStep),
      });
    }
  }
  const chalk = play.chalk.flatMap((each, place) => {
    const index = spanOn(each.filmId, each.inFrame);
    const kind = chalkKinds.find((word) => word === each.kind);
    const [centre] = each.points;
    if (index < 0 || kind === undefined || centre === undefined) return [];
    const points =
      each.radiusPixels === undefined ? each.points : [centre, [centre[0] + each.radiusPixels, centre[1]] as const];
    return [
      add('chalk', {
        id: idOf('chalk', `${play.id} ${place}`),
        spanId: spanId(index),
        evaluatorId: idOf('evaluator', 'amari'),
        fromFrame: each.inFrame,
        toFrame: each.outFrame,
        kind,
        points: points.map(([x, y]) => [x, y] as [number, number]),
        text: each.text ?? null,
      }),
    ];
  });
  done.push({ by: 'amari', label: `Chalk on play ${play.number}`, steps: chalk });
  return done;
}
