/** A play said in plain words: the same on the strip, in lists, on paper and in the search. */
import type { Part, Play } from './rows.ts';
import { spotInWords } from './rules.ts';

const ordinals = ['', '1st', '2nd', '3rd', '4th'];
const numbers = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven'];

/** "2nd and 7 at own 34"; what is not charted is left out, and nothing charted reads "not charted". */
export function situationInWords(play: Pick<Play, 'down' | 'toGo' | 'spot'>): string {
  const { down, toGo, spot } = play;
  const goal = spot !== null && toGo === 100 - spot;
  const first =
    down === null ? '' : `${ordinals[down] ?? down}${toGo === null ? ' down' : ` and ${goal ? 'goal' : toGo}`}`;
  const place = spot === null ? '' : `at ${spotInWords(spot)}`;
  return [first, place].filter((words) => words !== '').join(' ') || 'not charted';
}

/** "power right, gain of 9"; what is not charted is left out. */
export function runInWords(play: Play, part: Part | null): string {
  const design = [play.concept, play.direction].filter((word) => word !== null).join(' ');
  const gain = part?.gain ?? play.gain;
  const result = gain === null ? '' : gain < 0 ? `loss of ${-gain}` : gain === 0 ? 'no gain' : `gain of ${gain}`;
  const end =
    play.result === 'touchdown' ||
    play.result === 'fumble lost' ||
    play.result === 'safety' ||
    play.result === 'no play'
      ? play.result
      : '';
  const kind = part !== null && part.kind !== 'run' ? part.kind : '';
  return [design, kind, result, end].filter((words) => words !== '').join(', ') || 'not charted';
}

/** Everything charted of a play as one searchable line. */
export function playInWords(play: Play, part: Part | null): string {
  const count = (value: number | null, one: string, many: string): string =>
    value === null ? '' : `${numbers[value] ?? value} ${value} ${value === 1 ? one : many}`;
  return [
    situationInWords(play),
    play.hash === null ? '' : `${play.hash} hash`,
    play.quarter === null ? '' : `quarter ${play.quarter}`,
    runInWords(play, part),
    play.designedGap === null ? '' : `${play.designedGap} gap`,
    part?.hitGap === null || part === null ? '' : `hit ${part.hitGap}`,
    count(play.backs, 'back', 'backs'),
    count(play.tightEnds, 'tight end', 'tight ends'),
    play.formation ?? '',
    play.motion === null ? '' : `motion ${play.motion}`,
    play.backAlignment ?? '',
    count(play.box, 'in the box', 'in the box'),
    count(play.safetiesDeep, 'safety deep', 'safeties deep'),
    play.pressure ?? '',
    play.front ?? '',
    part?.pointOfAttack === null || part === null ? '' : `${part.pointOfAttack} at the point`,
    part?.penetration === null || part === null ? '' : `penetration ${part.penetration}`,
    part?.path ?? '',
    part?.contactPlace ?? '',
    part?.fumble === null || part === null || part.fumble === 'none' ? '' : `fumble ${part.fumble}`,
    play.penalty === null ? '' : `penalty ${play.penalty}`,
    part?.comeBack === true ? 'flagged' : '',
    part?.note ?? '',
    play.note ?? '',
  ]
    .filter((words) => words !== '')
    .join(', ');
}
