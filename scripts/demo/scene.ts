import { ballTrack } from './ball.ts';
import { bearings, type Bearing } from './bearing.ts';
import { choreograph, isOffence, type Choreography } from './choreography.ts';
import { FIELD, turnField, type Place } from './field-measure.ts';
import { SLOTS } from './formation.ts';
import type { Plant } from './gait.ts';
import type { PlayScript, Slot } from './play-script.ts';

/** Where a snap stands in its stadium: line of scrimmage and ball as the offence counts, and which way it drives. */
export type Setting = { readonly spotYards: number; readonly ballY: number; readonly drive: 1 | -1 };

/**
 * One figure at one frame in stadium axes, as numbers: x, y, face, lean way, lean, hip height, fall, fall way, left
 * foot (3), right foot (3), left hand (3), right hand (3). Yards and radians.
 */
export type FigureFrame = readonly number[];

/** A play ready to be filmed: everything in stadium axes, frame by frame of the play's own clock. */
export type Staged = {
  readonly setting: Setting;
  readonly moves: Choreography;
  readonly frameCount: number;
  /** Figures in the order of SLOTS at each frame. */
  readonly figures: readonly (readonly FigureFrame[])[];
  readonly ball: readonly (readonly [number, number, number])[];
  /** Places of every slot at each frame, as the offence counts the field. */
  readonly places: Readonly<Record<Slot, readonly Place[]>>;
  /** The runner's foot plants, as the offence counts the field and with feet as they are on film. */
  readonly steps: readonly {
    readonly frame: number;
    readonly foot: 'L' | 'R';
    readonly x: number;
    readonly y: number;
  }[];
};

/** Carries a play from its drawing (to the right, about the ball) onto the field and into the stadium. */
export function stage(play: PlayScript, setting: Setting, snap: number): Staged {
  const side = play.side === 'right' ? 1 : -1;
  const moves = choreograph(
    play,
    {
      toGoal: FIELD.length - setting.spotYards,
      roomPlay: side === 1 ? FIELD.width - setting.ballY : setting.ballY,
      roomBack: side === 1 ? setting.ballY : FIELD.width - setting.ballY,
    },
    snap,
  );
  const bears = bearings(play, moves);
  const onField = (u: number, w: number): Place => [setting.spotYards + u, setting.ballY + side * w];
  const inStadium = (point: readonly [number, number, number]): [number, number, number] => {
    const [x, y] = turnField(setting.drive, onField(point[0], point[1]));
    return [x, y, point[2]];
  };
  const turned = (angle: number): number => side * angle + (setting.drive === 1 ? 0 : Math.PI);
  const figure = (bearing: Bearing, frame: number): number[] => {
    const place = bearing.path[frame] ?? [0, 0];
    const [x, y] = turnField(setting.drive, onField(place[0], place[1]));
    const left = inStadium(bearing.feet.left[frame] ?? [0, 0, 0]);
    const right = inStadium(bearing.feet.right[frame] ?? [0, 0, 0]);
    const leftHand = inStadium(bearing.leftHand[frame] ?? [0, 0, 0]);
    const rightHand = inStadium(bearing.rightHand[frame] ?? [0, 0, 0]);
    const pairs = side === 1 ? [left, right, leftHand, rightHand] : [right, left, rightHand, leftHand];
    return [
      x,
      y,
      turned(bearing.face[frame] ?? 0),
      turned(bearing.leanWay[frame] ?? 0),
      bearing.lean[frame] ?? 0,
      bearing.hip[frame] ?? 0.9,
      bearing.fall[frame] ?? 0,
      turned(bearing.fallWay),
      ...pairs.flat(),
    ];
  };
  const frames = Array.from({ length: moves.frameCount }, (_, frame) => frame);
  const flip = (plant: Plant): 'L' | 'R' => (side === 1 ? plant.foot : plant.foot === 'L' ? 'R' : 'L');
  return {
    setting,
    moves,
    frameCount: moves.frameCount,
    figures: frames.map((frame) => SLOTS.map((slot) => figure(bears[slot], frame))),
    ball: ballTrack(play, moves, bears).map(inStadium),
    places: Object.fromEntries(
      SLOTS.map((slot) => [slot, bears[slot].path.map((place) => onField(place[0], place[1]))]),
    ) as Record<Slot, Place[]>,
    steps: bears.RB.feet.plants
      .filter((plant) => plant.frame >= moves.moments.snap && plant.frame <= moves.moments.down)
      .map((plant) => {
        const [x, y] = onField(plant.u, plant.w);
        return { frame: plant.frame, foot: flip(plant), x, y };
      }),
  };
}

/** Which of SLOTS are the offence, in order. */
export const OFFENCE_FLAGS: readonly boolean[] = SLOTS.map(isOffence);
