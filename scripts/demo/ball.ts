import type { Bearing } from './bearing.ts';
import type { Choreography } from './choreography.ts';
import type { PlayScript, Slot } from './play-script.ts';

type Triple = readonly [number, number, number];

const mix = (from: Triple, to: Triple, t: number, arc: number): Triple => [
  from[0] + (to[0] - from[0]) * t,
  from[1] + (to[1] - from[1]) * t,
  from[2] + (to[2] - from[2]) * t + arc * 4 * t * (1 - t),
];

function inHand(bearing: Bearing, frame: number): Triple {
  const right = bearing.rightHand[frame] ?? [0, 0, 1];
  const [u, w] = bearing.path[frame] ?? [0, 0];
  return [right[0] * 0.8 + u * 0.2, right[1] * 0.8 + w * 0.2, right[2] + 0.04];
}

/** Where the ball is at each frame: u, w, height in yards, drawn up to the right. */
export function ballTrack(play: PlayScript, moves: Choreography, bears: Readonly<Record<Slot, Bearing>>): Triple[] {
  const { snap, exchange } = moves.moments;
  const rest: Triple = [-0.15, 0, 0.12];
  const caught = snap + (play.shotgun ? 9 : 3);
  const pass = moves.pass;
  const give = pass ? undefined : exchange;
  const flight = play.concept === 'toss' ? 10 : 3;
  const track: Triple[] = [];
  for (let frame = 0; frame < moves.frameCount; frame += 1) {
    const quarterback = inHand(bears.QB, frame);
    if (frame < snap) track.push(rest);
    else if (frame < caught)
      track.push(mix(rest, quarterback, (frame - snap + 1) / (caught - snap + 1), play.shotgun ? 0.35 : 0));
    else if (pass) {
      const goes = inHand(bears[pass.carrier], frame);
      if (frame < pass.throwAt) track.push(quarterback);
      else if (frame < pass.arrive) {
        const from = inHand(bears.QB, pass.throwAt);
        const to = inHand(bears[pass.carrier], pass.arrive);
        const arc = Math.min(4, 0.25 + (pass.arrive - pass.throwAt) * 0.03);
        track.push(
          mix(
            [from[0], from[1], 1.95],
            [to[0], to[1], 1.4],
            (frame - pass.throwAt) / (pass.arrive - pass.throwAt),
            arc,
          ),
        );
      } else if (pass.complete) track.push(goes);
      else {
        const at = bears[pass.carrier].path[pass.arrive] ?? [0, 0];
        const t = Math.min(1, (frame - pass.arrive) / 9);
        track.push([at[0] + 2.6 * t, at[1] + 0.6 * t, 1.4 * (1 - t) * (1 - t) + 0.12]);
      }
    } else if (give !== undefined && frame < give - flight) track.push(quarterback);
    else if (give !== undefined && frame < give) {
      track.push(
        mix(quarterback, inHand(bears.RB, frame), (frame - give + flight + 1) / (flight + 1), flight > 5 ? 0.35 : 0),
      );
    } else if (moves.looseAt !== undefined && frame > moves.looseAt) {
      const from = inHand(bears.RB, moves.looseAt);
      const finder = bears[moves.recoveredBy ?? 'MIKE'].path[frame] ?? [0, 0];
      const t = Math.min(1, (frame - moves.looseAt) / 20);
      const bounce = Math.abs(Math.cos(t * 7)) * (1 - t) * 0.9;
      track.push([from[0] + (finder[0] - from[0]) * t, from[1] + (finder[1] - from[1]) * t, 0.14 + bounce]);
    } else track.push(inHand(bears.RB, frame));
  }
  return track;
}
