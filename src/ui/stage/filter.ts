import type { Part, Play } from '../../contract/rows.ts';
import { playInWords } from '../../contract/play-in-words.ts';

type Test = (play: Play, part: Part | null, words: string) => boolean;

const fields: Readonly<Record<string, (play: Play, part: Part | null) => number | null>> = {
  down: (play) => play.down,
  'to go': (play) => play.toGo,
  spot: (play) => play.spot,
  box: (play) => play.box,
  gain: (play, part) => part?.gain ?? play.gain,
  quarter: (play) => play.quarter,
  series: (play) => play.series,
  contact: (_play, part) => part?.contactAt ?? null,
};

function testOf(term: string): Test {
  const compared = /^(down|to go|spot|box|gain|quarter|series|contact)\s*(<=|>=|<|>|=)\s*(-?\d+)$/.exec(term);
  if (compared === null) return (_play, _part, words) => words.includes(term);
  const [, field = '', sign, figure] = compared;
  const wanted = Number(figure);
  return (play, part) => {
    const value = fields[field]?.(play, part) ?? null;
    if (value === null) return false;
    switch (sign) {
      case '<':
        return value < wanted;
      case '>':
        return value > wanted;
      case '<=':
        return value <= wanted;
      case '>=':
        return value >= wanted;
      default:
        return value === wanted;
    }
  };
}

/** Makes a filter of words and comparisons set off by commas: “power, left hash, gain > 5”; all must hold. */
export function playFilter(text: string): (play: Play, part: Part | null) => boolean {
  const tests = text
    .toLowerCase()
    .split(',')
    .map((term) => term.trim())
    .filter((term) => term !== '')
    .map(testOf);
  if (tests.length === 0) return () => true;
  return (play, part) => {
    const words = playInWords(play, part).toLowerCase();
    return tests.every((test) => test(play, part, words));
  };
}
