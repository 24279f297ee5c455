import type { Camera } from './camera.ts';
import { smoothed } from './curve.ts';
import { FIELD, turnField } from './field-measure.ts';
import type { Staged } from './scene.ts';
import { seeded, seedFrom } from './seed.ts';

export type Shot = 'sideline' | 'tight' | 'end zone';

/** Slow unsteadiness of a hand on a fluid head: a sum of sines, yards at the target. */
function sway(key: string): (frame: number) => readonly [number, number] {
  const next = seeded(seedFrom(key));
  const waves = Array.from({ length: 4 }, () => ({
    rate: 0.012 + next() * 0.05,
    phase: next() * 7,
    across: next() - 0.5,
    along: next() - 0.5,
  }));
  return (frame) => [
    waves.reduce((sum, wave) => sum + wave.across * Math.sin(frame * wave.rate * 2 + wave.phase), 0) * 0.1,
    waves.reduce((sum, wave) => sum + wave.along * Math.cos(frame * wave.rate * 2 + wave.phase), 0) * 0.06,
  ];
}

function followed(staged: Staged): [number[], number[]] {
  const drive = staged.setting.drive;
  const prey = staged.moves.pass
    ? staged.ball.map((at) => [at[0], at[1]] as const)
    : staged.places.RB.map((place) => turnField(drive, place));
  return [prey.map((place) => place[0]), prey.map((place) => place[1])];
}

/** Follows only what leaves the middle of the picture by more than `zone` yards, as a hand on a heavy head does. */
function trailing(wish: readonly number[], start: number, zone: number): number[] {
  let at = start;
  return wish.map((value) => {
    if (value - at > zone) at = value - zone;
    if (at - value > zone) at = value + zone;
    return at;
  });
}

/** Points the camera through one play: pan, tilt and zoom from one fixed stand, late as an operator is. */
export function shoot(staged: Staged, shot: Shot, key: string): readonly Camera[] {
  const { drive, spotYards, ballY } = staged.setting;
  const [lineX, lineY] = turnField(drive, [spotYards, ballY]);
  const [xs, ys] = followed(staged);
  const snap = staged.moves.moments.snap;
  const late = 5;
  const begin = snap + 14;
  const lead = drive * 1.4;
  const middle = shot === 'end zone' ? lineY * 0.85 + (FIELD.width / 2) * 0.15 : lineY * 0.6 + (FIELD.width / 2) * 0.4;
  const seenX = (frame: number): number =>
    frame < begin
      ? lineX + lead
      : lineX + drive * Math.max(-2, drive * ((xs[Math.max(0, frame - late)] ?? lineX) - lineX)) + lead;
  const seenY = (frame: number): number => (frame < begin ? lineY : (ys[Math.max(0, frame - late)] ?? lineY));
  const along = trailing(
    xs.map((_, frame) => seenX(frame)),
    lineX + lead,
    shot === 'tight' ? 3 : 5.2,
  );
  const across = trailing(
    ys.map((_, frame) => seenY(frame)),
    lineY,
    shot === 'sideline' ? 5 : 3.4,
  ).map((y) => middle + (y - lineY) * (shot === 'end zone' ? 1 : 0.6));
  const [softX, softY] = [smoothed(along, 7), smoothed(across, 7)];
  const shake = sway(key + shot);
  const next = seeded(seedFrom(`${key} zoom`));
  const zooms = shot !== 'tight' && next() < 0.17;
  const zoomTo = zooms ? 1.08 + next() * 0.14 : 1;
  const zoom = smoothed(
    xs.map((_, frame) => 1 + (zoomTo - 1) * Math.min(1, Math.max(0, (frame - snap - 6) / 60))),
    8,
  );
  return softX.map((x, frame): Camera => {
    const y = softY[frame] ?? lineY;
    const moving = Math.min(
      1,
      Math.hypot(x - (softX[Math.max(0, frame - 6)] ?? x), y - (softY[Math.max(0, frame - 6)] ?? y)),
    );
    const [da, db] = shake(frame).map((value) => value * moving) as [number, number];
    const grow = zoom[frame] ?? 1;
    switch (shot) {
      case 'sideline':
        return { at: [50, 91, 21], target: [x + da, y + db, 0.6], focal: wide(50, 91, 21, lineX, lineY, 34) * grow };
      case 'tight':
        return {
          at: [50, 91, 21],
          target: [x + da * 0.6, y + db * 0.6, 0.8],
          focal: wide(50, 91, 21, lineX, lineY, 22) * grow,
        };
      case 'end zone':
        break;
    }
    const behind = drive * (lineX - 50) < 14;
    const stand = behind === (drive === 1) ? -12 : FIELD.length + 12;
    const beside = FIELD.width / 2 + 6;
    return {
      at: [stand, beside, 14],
      target: [x + da, y + db, 0.9],
      focal: wide(stand, beside, 14, lineX, lineY, 25) * grow,
    };
  });
}

/** The focal length, in pixels, that shows about `yardsWide` of field across the picture at the line of scrimmage. */
function wide(ax: number, ay: number, az: number, x: number, y: number, yardsWide: number): number {
  return (1280 * Math.hypot(ax - x, ay - y, az)) / yardsWide;
}
