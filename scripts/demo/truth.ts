import { offenceMatrix } from './camera.ts';
import { FILM } from './field-measure.ts';
import { filmFrame, type FilmPlan, type Segment } from './film-plan.ts';
import { SLOTS } from './formation.ts';
import { cameraAt } from './pictures.ts';
import type { Moments } from './runner-plan.ts';
import type { Slot } from './play-script.ts';
import { slotWords } from './words.ts';

const MOMENT_NAMES = {
  snap: 'snap',
  exchange: 'exchange',
  firstRead: 'first read',
  press: 'press',
  decision: 'decision',
  plant: 'plant',
  cut: 'cut',
  firstContact: 'first contact',
  down: 'down',
} as const satisfies Record<keyof Moments, string>;

const places = (value: number, count: number): number => Number(value.toFixed(count));

/** A film's moments for one span, named as the charting names them, at exact film frames. */
export function spanMoments(segment: Segment): Record<string, number> {
  const moments = segment.play?.staged.moves.moments;
  if (!moments) return {};
  return Object.fromEntries(
    Object.entries(MOMENT_NAMES).flatMap(([key, name]) => {
      const frame = moments[key as keyof Moments];
      const on = frame === undefined ? undefined : filmFrame(segment, frame);
      return on === undefined ? [] : [[name, on]];
    }),
  );
}

/** The runner's foot plants for one span, at exact film frames, with their places on the field. */
export function spanSteps(segment: Segment): { frame: number; foot: 'L' | 'R'; x: number; y: number }[] {
  return (segment.play?.staged.steps ?? []).flatMap((step) => {
    const on = filmFrame(segment, step.frame);
    return on === undefined ? [] : [{ frame: on, foot: step.foot, x: places(step.x, 3), y: places(step.y, 3) }];
  });
}

function spanTruth(plan: FilmPlan, segment: Segment): object {
  const play = segment.play;
  if (!play) return { kind: 'score card', inFrame: segment.inFrame, outFrame: segment.outFrame };
  const frames = Array.from(
    { length: segment.outFrame - segment.inFrame + 1 },
    (_, at) => segment.from + at * segment.timeScale,
  );
  const where = (slot: Slot): number[] =>
    frames.flatMap((time) => {
      const low = Math.floor(time);
      const from = play.staged.places[slot][low] ?? [0, 0];
      const to = play.staged.places[slot][Math.min(play.staged.frameCount - 1, low + 1)] ?? from;
      const t = time - low;
      return [places(from[0] + (to[0] - from[0]) * t, 3), places(from[1] + (to[1] - from[1]) * t, 3)];
    });
  return {
    kind: segment.kind,
    playId: play.id,
    angle: plan.angle,
    timeScale: segment.timeScale,
    inFrame: segment.inFrame,
    outFrame: segment.outFrame,
    offenceDrives: play.staged.setting.drive === 1 ? 'east' : 'west',
    moments: spanMoments(segment),
    steps: spanSteps(segment),
    cameras: frames.map((at) =>
      offenceMatrix(cameraAt({ segment, at }), play.staged.setting.drive).map((value) => Number(value.toPrecision(10))),
    ),
    figures: SLOTS.map((slot) => ({
      slot: slotWords(slot, play.script),
      side: SLOTS.indexOf(slot) < 11 ? 'offence' : 'defence',
      places: where(slot),
    })),
    blocks: play.staged.moves.blocks.map((block) => ({
      blocker: slotWords(block.blocker, play.script),
      defender: slotWords(block.defender, play.script),
      result: block.result,
    })),
  };
}

/** The ground truth of one film: every change of shot, and for each span its cameras, places, feet and moments. */
export function filmTruth(plan: FilmPlan): object {
  return {
    format: 'creasebook demo film truth',
    version: 1,
    film: plan.id,
    widthPixels: FILM.width,
    heightPixels: FILM.height,
    frameRate: { numerator: FILM.numerator, denominator: FILM.denominator },
    frameCount: plan.frameCount,
    transitions: plan.transitions,
    spans: plan.segments.map((segment) => spanTruth(plan, segment)),
  };
}
