/** The play sentence: its blanks in reading order, what each takes, and the words around them. */
import {
  backAlignments,
  ballArms,
  concepts,
  contactPlaces,
  directions,
  fumbles,
  gaps,
  hashes,
  outOfBounds,
  partKinds,
  paths,
  penetrations,
  playResults,
  pointsOfAttack,
  pressures,
  readSources,
  schemes,
} from '../../contract/words.ts';

export type Choice = { readonly value: string; readonly letter: string };

/** What a blank takes, and how typed text becomes its value. */
export type Takes =
  | { readonly kind: 'choice'; readonly choices: readonly Choice[] }
  | {
      readonly kind: 'whole';
      readonly low: number;
      readonly high: number;
      readonly fullAt: number;
      readonly inWords: boolean;
    }
  | { readonly kind: 'number' }
  | { readonly kind: 'spot' }
  | { readonly kind: 'down' }
  | { readonly kind: 'to go' }
  | { readonly kind: 'clock' }
  | { readonly kind: 'score' }
  | { readonly kind: 'runner' }
  | { readonly kind: 'yes' }
  | { readonly kind: 'text' };

export type Blank = {
  readonly name: string;
  readonly table: 'play' | 'part';
  readonly column: string;
  readonly takes: Takes;
  /** What it takes, for the line under the blank. */
  readonly hint: string;
  readonly before: string;
  /** Words behind it; `one|many` for counts. */
  readonly after: string;
  /** Core blanks stand open always; telling ones when they are filled with more than the ordinary; the rest when asked for. */
  readonly core: boolean;
  readonly telling: boolean;
  /** What goes without saying in this blank. */
  readonly ordinary: readonly (string | number | boolean)[];
  /** A clause is set off from the one before by a middle dot. */
  readonly startsClause: boolean;
};

/** Choices with a letter each: the given one, else the first letter not yet taken. */
function choices(values: readonly string[], letters: Readonly<Record<string, string>> = {}): Takes {
  const taken = new Set(Object.values(letters));
  return {
    kind: 'choice',
    choices: values.map((value) => {
      const letter =
        letters[value] ?? [...value.toLowerCase()].find((each) => /[a-z]/.test(each) && !taken.has(each)) ?? '';
      taken.add(letter);
      return { value, letter };
    }),
  };
}

const whole = (low: number, high: number, fullAt: number): Takes => ({
  kind: 'whole',
  low,
  high,
  fullAt,
  inWords: false,
});
/** Small counts read as words: two tight ends. */
const count = (high: number, fullAt: number): Takes => ({ kind: 'whole', low: 0, high, fullAt, inWords: true });

type Made = Pick<Blank, 'name' | 'table' | 'column' | 'takes' | 'hint'> & Partial<Blank>;
const blank = (made: Made): Blank => ({
  before: '',
  after: '',
  core: false,
  telling: false,
  ordinary: [],
  startsClause: false,
  ...made,
});

export const blanks: readonly Blank[] = [
  blank({
    name: 'down',
    table: 'play',
    column: 'down',
    takes: { kind: 'down' },
    hint: '1 to 4',
    core: true,
    after: ' and',
  }),
  blank({
    name: 'to go',
    table: 'play',
    column: 'toGo',
    takes: { kind: 'to go' },
    hint: 'yards to the line to gain; g for goal',
    core: true,
    after: ' at',
  }),
  blank({
    name: 'spot',
    table: 'play',
    column: 'spot',
    takes: { kind: 'spot' },
    hint: '34 or own 34; o7 or +7 for the opponent’s 7; 50',
    core: true,
    after: ',',
  }),
  blank({
    name: 'hash',
    table: 'play',
    column: 'hash',
    takes: choices(hashes),
    hint: 'left, middle, right',
    core: true,
    after: ' hash',
  }),
  blank({
    name: 'quarter',
    table: 'play',
    column: 'quarter',
    takes: whole(1, 9, 1),
    hint: '1 to 4, 5 and on for overtime',
    before: 'quarter',
    startsClause: true,
  }),
  blank({
    name: 'clock',
    table: 'play',
    column: 'clockSeconds',
    takes: { kind: 'clock' },
    hint: 'left in the quarter: 4:07 or 407',
    before: 'with',
    after: ' left',
  }),
  blank({
    name: 'own score',
    table: 'play',
    column: 'scoreFor',
    takes: { kind: 'score' },
    hint: 'points of the offence',
    before: 'score',
    after: ' to',
  }),
  blank({
    name: 'their score',
    table: 'play',
    column: 'scoreAgainst',
    takes: { kind: 'score' },
    hint: 'points of the defence',
  }),
  blank({
    name: 'series',
    table: 'play',
    column: 'series',
    takes: whole(1, 60, 2),
    hint: 'the series in this game',
    before: 'series',
  }),
  blank({
    name: 'backs',
    telling: true,
    table: 'play',
    column: 'backs',
    takes: count(5, 1),
    hint: 'backs in the backfield',
    after: ' back| backs',
    startsClause: true,
  }),
  blank({
    name: 'tight ends',
    telling: true,
    table: 'play',
    column: 'tightEnds',
    takes: count(5, 1),
    hint: 'tight ends',
    after: ' tight end| tight ends',
  }),
  blank({
    name: 'formation',
    table: 'play',
    column: 'formation',
    takes: { kind: 'text' },
    hint: 'in your words',
    before: 'from',
  }),
  blank({
    name: 'motion',
    telling: true,
    ordinary: ['none'],
    table: 'play',
    column: 'motion',
    takes: { kind: 'text' },
    hint: 'who moves where, or none',
    before: 'motion',
  }),
  blank({
    name: 'back lines up',
    table: 'play',
    column: 'backAlignment',
    takes: choices(backAlignments),
    hint: 'where the back stands',
    before: 'back',
  }),
  blank({
    name: 'back depth',
    table: 'play',
    column: 'backDepth',
    takes: { kind: 'number' },
    hint: 'yards behind the line',
    before: 'at',
    after: ' yards',
  }),
  blank({
    name: 'concept',
    table: 'play',
    column: 'concept',
    takes: choices(concepts, {
      'inside zone': 'i',
      'outside zone': 'o',
      power: 'p',
      counter: 'c',
      toss: 't',
      draw: 'd',
      trap: 'r',
      duo: 'u',
      lead: 'l',
      sneak: 's',
      option: 'n',
      pass: 'a',
      other: 'x',
    }),
    hint: 'the run’s design',
    core: true,
    startsClause: true,
  }),
  blank({
    name: 'direction',
    table: 'play',
    column: 'direction',
    takes: choices(directions),
    hint: 'left, middle, right',
    core: true,
  }),
  blank({
    name: 'runner',
    table: 'part',
    column: 'runnerId',
    takes: { kind: 'runner' },
    hint: 'number or name',
    before: 'by',
    core: true,
  }),
  blank({
    name: 'gap',
    telling: true,
    table: 'play',
    column: 'designedGap',
    takes: choices(gaps),
    hint: 'A to D, or outside',
    before: 'at the',
    after: ' gap,',
  }),
  blank({
    name: 'hit',
    telling: true,
    table: 'part',
    column: 'hitGap',
    takes: choices(gaps),
    hint: 'the gap he ran through',
    before: 'hit',
  }),
  blank({
    name: 'path',
    telling: true,
    ordinary: ['on track'],
    table: 'part',
    column: 'path',
    takes: choices(paths, { 'on track': 't', bend: 'b', bounce: 'o' }),
    hint: 'on track, bend, bounce',
  }),
  blank({
    name: 'scheme',
    table: 'play',
    column: 'scheme',
    takes: choices(schemes),
    hint: 'zone or gap',
    after: ' scheme',
  }),
  blank({
    name: 'part',
    telling: true,
    ordinary: ['run'],
    table: 'part',
    column: 'kind',
    takes: choices(partKinds),
    hint: 'what the runner did',
    before: 'as',
  }),
  blank({
    name: 'pullers',
    table: 'play',
    column: 'pullers',
    takes: count(5, 1),
    hint: 'linemen who pull',
    after: ' pulling',
  }),
  blank({
    name: 'lead blockers',
    table: 'play',
    column: 'leadBlockers',
    takes: count(5, 1),
    hint: 'backs and tight ends who lead',
    after: ' leading',
  }),
  blank({
    name: 'give is a choice',
    table: 'play',
    column: 'giveIsChoice',
    takes: { kind: 'yes' },
    hint: 'was the give the passer’s choice: yes or no',
    before: 'option',
  }),
  blank({
    name: 'box',
    telling: true,
    table: 'play',
    column: 'box',
    takes: count(11, 2),
    hint: 'men in the box',
    after: ' in the box',
    startsClause: true,
  }),
  blank({
    name: 'front',
    table: 'play',
    column: 'front',
    takes: { kind: 'text' },
    hint: 'in your words',
    before: 'front',
  }),
  blank({
    name: 'safeties deep',
    table: 'play',
    column: 'safetiesDeep',
    takes: count(4, 1),
    hint: 'safeties deep',
    after: ' deep',
  }),
  blank({
    name: 'pressure',
    telling: true,
    ordinary: ['none'],
    table: 'play',
    column: 'pressure',
    takes: choices(pressures, { none: 'n', slant: 's', blitz: 'b', 'slant and blitz': 'a' }),
    hint: 'none, slant, blitz',
    before: 'pressure',
  }),
  blank({
    name: 'reads',
    table: 'part',
    column: 'readDefender',
    takes: { kind: 'text' },
    hint: 'the defender he reads',
    before: 'reads',
  }),
  blank({
    name: 'read is',
    table: 'part',
    column: 'readSource',
    takes: choices(readSources),
    hint: 'known or assumed',
  }),
  blank({
    name: 'free defender',
    table: 'part',
    column: 'freeDefender',
    takes: { kind: 'text' },
    hint: 'who came free',
    before: 'free',
  }),
  blank({
    name: 'failed block',
    table: 'part',
    column: 'failedBlock',
    takes: { kind: 'text' },
    hint: 'whose block failed',
    before: 'past',
  }),
  blank({
    name: 'point of attack',
    telling: true,
    table: 'part',
    column: 'pointOfAttack',
    takes: choices(pointsOfAttack),
    hint: 'won, stalemate, lost',
    after: ' at the point',
    startsClause: true,
  }),
  blank({
    name: 'penetration',
    telling: true,
    ordinary: ['none'],
    table: 'part',
    column: 'penetration',
    takes: choices(penetrations),
    hint: 'none, late, early',
    before: 'penetration',
  }),
  blank({
    name: 'gain',
    table: 'play',
    column: 'gain',
    takes: whole(-99, 99, 3),
    hint: 'yards, a loss as -3',
    core: true,
    before: 'gain of',
    startsClause: true,
  }),
  blank({
    name: 'result',
    telling: true,
    ordinary: ['down'],
    table: 'play',
    column: 'result',
    takes: choices(playResults, {
      down: 'd',
      touchdown: 't',
      'out of bounds': 'o',
      'fumble lost': 'f',
      safety: 's',
      incomplete: 'i',
      'no play': 'n',
    }),
    hint: 'how it ended',
  }),
  blank({
    name: 'contact at',
    telling: true,
    table: 'part',
    column: 'contactAt',
    takes: { kind: 'number' },
    hint: 'yards past the line at first contact',
    before: 'contact at',
  }),
  blank({
    name: 'contact by',
    table: 'part',
    column: 'contactBy',
    takes: { kind: 'text' },
    hint: 'who made it',
    before: 'by the',
  }),
  blank({
    name: 'contact place',
    table: 'part',
    column: 'contactPlace',
    takes: choices(contactPlaces),
    hint: 'where',
    before: 'in the',
  }),
  blank({
    name: 'cleared yards',
    table: 'part',
    column: 'clearedYards',
    takes: { kind: 'number' },
    hint: 'yards past the line before the first unblocked defender could act',
    before: 'cleared',
  }),
  blank({
    name: 'missed tackles',
    telling: true,
    ordinary: [0],
    table: 'part',
    column: 'missedTackles',
    takes: count(11, 1),
    hint: 'missed tackles',
    after: ' missed tackle| missed tackles',
  }),
  blank({
    name: 'ball arm',
    table: 'part',
    column: 'ballArm',
    takes: choices(ballArms, { left: 'l', right: 'r', both: 'b', 'wrong side': 'w' }),
    hint: 'the arm that carries the ball',
    before: 'ball in',
  }),
  blank({
    name: 'fumble',
    telling: true,
    ordinary: ['none'],
    table: 'part',
    column: 'fumble',
    takes: choices(fumbles),
    hint: 'none, kept, lost',
    before: 'fumble',
  }),
  blank({
    name: 'out of bounds',
    telling: true,
    ordinary: ['none'],
    table: 'part',
    column: 'outOfBounds',
    takes: choices(outOfBounds),
    hint: 'none, forced, chosen',
    before: 'out of bounds',
  }),
  blank({
    name: 'penalty',
    telling: true,
    table: 'play',
    column: 'penalty',
    takes: { kind: 'text' },
    hint: 'the foul, and on whom',
    before: 'penalty',
  }),
  blank({
    name: 'penalty yards',
    table: 'play',
    column: 'penaltyYards',
    takes: whole(-50, 50, 3),
    hint: 'for the offence; against it as -10',
    after: ' yards',
  }),
  blank({
    name: 'counts',
    telling: true,
    ordinary: [true],
    table: 'part',
    column: 'counts',
    takes: { kind: 'yes' },
    hint: 'counts in results: yes or no',
    before: 'counts',
    startsClause: true,
  }),
  blank({
    name: 'because',
    table: 'part',
    column: 'countsBecause',
    takes: { kind: 'text' },
    hint: 'why it does not count',
    before: 'because',
  }),
  blank({
    name: 'note',
    table: 'part',
    column: 'note',
    takes: { kind: 'text' },
    hint: 'anything else',
    before: 'note',
    startsClause: true,
  }),
];
