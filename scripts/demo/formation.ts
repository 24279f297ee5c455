import { FIELD } from './field-measure.ts';
import { DEFENCE, OFFENCE, type PlayScript, type Slot } from './play-script.ts';

/** Where the ball lies and how much field is left: yards. `roomPlay` and `roomBack` run from the ball to each sideline. */
export type Spotting = {
  readonly toGoal: number;
  readonly roomPlay: number;
  readonly roomBack: number;
};

/** Where each of the 22 lines up: yards past the line of scrimmage and yards to the play side. */
export type LineUp = Readonly<Record<Slot, readonly [number, number]>>;

/** Slots that start in a three-point stance. */
export const DOWN_LINEMEN: readonly Slot[] = ['C', 'PG', 'BG', 'PT', 'BT', 'Y', 'DEp', 'DTp', 'NT', 'DEb'];

/** As wide as wished where the sideline leaves room. */
function wide(room: number, wish: number): number {
  return Math.min(wish, room - 3);
}

/** Lines both sides up for a play as the formation, the box and the sidelines allow. */
export function lineUp(play: PlayScript, spotting: Spotting): LineUp {
  const yW = play.tightEnd === 'play side' ? 4.25 : -4.25;
  const heavy = play.personnel === '22';
  const depth = (wish: number): number => Math.min(wish, spotting.toGoal + FIELD.endZone - 1.2);
  const tight = play.box === 9;
  const hPlace = ((): readonly [number, number] => {
    switch (play.personnel) {
      case '11':
        return [-1.6, play.tightEnd === 'play side' ? -wide(spotting.roomBack, 9.5) : wide(spotting.roomPlay, 9.5)];
      case '12':
        return [-1.35, -yW];
      case '21':
      case '22':
        break;
    }
    return play.shotgun ? [-4.6, 1.3] : [-4.1, 0];
  })();
  const x: readonly [number, number] = heavy ? [-1.35, -yW] : [-1, -wide(spotting.roomBack, 16)];
  const z: readonly [number, number] = [-1.7, wide(spotting.roomPlay, heavy ? 9 : 15)];
  const endPlay = play.tightEnd === 'play side' || play.personnel === '12' || heavy ? 4.75 : 3.35;
  const endBack = play.tightEnd === 'back side' || play.personnel === '12' || heavy ? -4.75 : -3.45;
  const back = ((): readonly [number, number] => {
    if (!play.shotgun) return [-7.1, 0];
    return play.concept === 'toss' || play.concept === 'draw' || play.pass ? [-5.1, 1.25] : [-5.2, -1.3];
  })();
  const backers = tight ? 2.7 : 4.4;
  const sam: readonly [number, number] =
    play.box >= 7 || play.personnel !== '11' ? [depth(backers - 0.1), 4.7] : [depth(5.2), hPlace[1]];
  const places: Record<Slot, readonly [number, number]> = {
    C: [-0.75, 0],
    PG: [-1.05, 1.35],
    BG: [-1.05, -1.35],
    PT: [-1.3, 2.75],
    BT: [-1.3, -2.75],
    Y: [-1.3, yW],
    H: hPlace,
    X: x,
    Z: z,
    QB: play.shotgun ? [-5, 0] : [-1.55, 0],
    RB: back,
    DEp: [0.85, endPlay],
    DTp: [0.8, 2],
    NT: [0.8, -0.75],
    DEb: [0.85, endBack],
    MIKE: [depth(backers), 1.1],
    WILL: [depth(backers + 0.1), -2.6],
    SAM: sam,
    CBx: [depth(tight ? 2.5 : 6.8), heavy ? -7 : x[1] + 0.6],
    CBz: [depth(tight ? 3 : 6.4), z[1] - 0.7],
    FS: [depth(tight ? 3.2 : 12.5), tight ? 0 : -3.2],
    SS: [depth(play.box >= 8 ? 5 : 11), play.box >= 8 ? -5.6 : 6.4],
  };
  return places;
}

/** Every slot, offence first. */
export const SLOTS: readonly Slot[] = [...OFFENCE, ...DEFENCE];
