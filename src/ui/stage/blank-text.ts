/** From what is typed in a blank to its value, and back to the words that stand in the sentence. */
import { known, unknown, type Known } from '../../core/known.ts';
import type { Runner } from '../../contract/rows.ts';
import { spotInWords } from '../../contract/rules.ts';
import type { Blank } from './blank.ts';

export type BlankValue = string | number | boolean | null;

const ordinals = ['', '1st', '2nd', '3rd', '4th'];
const numbers = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven'];

/** Who can fill the runner blank. */
export type BlankContext = {
  readonly runners: readonly Runner[];
  readonly spot: number | null;
  readonly toGo: number | null;
};

const refuse = (typed: string, wanted: string): Known<BlankValue, 'not understood'> =>
  unknown('not understood', `Takes ${wanted}; got “${typed}”.`);

function wholeFrom(typed: string, low: number, high: number): Known<BlankValue, 'not understood'> {
  const value = Number(typed);
  return /^[+-]?\d+$/.test(typed) && value >= low && value <= high
    ? known(value)
    : refuse(typed, `a whole number from ${low} to ${high}`);
}

function spotFrom(typed: string): Known<BlankValue, 'not understood'> {
  const wanted = 'a spot such as own 34, o7 (the opponent’s 7) or 50';
  if (/^(mid|midfield|50)$/i.test(typed)) return known(50);
  const match = /^(own|opponent|opp|o|\+|-)?\s*(\d{1,2})$/i.exec(typed);
  const yards = Number(match?.[2] ?? 0);
  if (match === null || yards < 1 || yards > 50) return refuse(typed, wanted);
  const side = (match[1] ?? 'own').toLowerCase();
  return known(side === 'own' || side === '-' ? yards : 100 - yards);
}

function clockFrom(typed: string): Known<BlankValue, 'not understood'> {
  const match = /^(\d{1,2}):?(\d{2})$/.exec(typed);
  const seconds = Number(match?.[1] ?? 0) * 60 + Number(match?.[2] ?? 0);
  return match === null || Number(match[2]) > 59 || seconds > 900
    ? refuse(typed, 'a clock from 15:00 down to 0:00, such as 4:07 or 407')
    : known(seconds);
}

function runnerFrom(typed: string, runners: readonly Runner[]): Known<BlankValue, 'not understood'> {
  const words = typed.toLowerCase();
  const found = runners.filter(
    ({ name, jersey }) =>
      String(jersey) === words ||
      name.toLowerCase() === words ||
      name
        .toLowerCase()
        .split(/[\s-]+/)
        .some((word) => word.startsWith(words)),
  );
  const [only] = found;
  if (only !== undefined && found.length === 1) return known(only.id);
  return refuse(
    typed,
    found.length === 0
      ? 'a runner of this study, by number or name'
      : `one runner; ${found.map(({ name }) => name).join(' and ')} fit`,
  );
}

/** Reads typed text; an empty text empties the blank. The reason names what it takes and what it got. */
export function readBlank(blank: Blank, text: string, context: BlankContext): Known<BlankValue, 'not understood'> {
  const typed = text.trim();
  if (typed === '') return known(null);
  const { takes } = blank;
  switch (takes.kind) {
    case 'choice': {
      const low = typed.toLowerCase();
      const found =
        takes.choices.find(
          ({ value, letter }) => value.toLowerCase() === low || (low.length === 1 && letter === low),
        ) ?? takes.choices.find(({ value }) => value.toLowerCase().startsWith(low));
      return found === undefined
        ? refuse(typed, takes.choices.map(({ value }) => value).join(', '))
        : known(found.value);
    }
    case 'whole': {
      const word = numbers.indexOf(typed.toLowerCase());
      return word > 0 && takes.inWords ? known(word) : wholeFrom(typed, takes.low, takes.high);
    }
    case 'down': {
      const ordinal = ordinals.indexOf(typed.toLowerCase());
      if (ordinal > 0) return known(ordinal);
      return /^[1-4]$/.test(typed) ? known(Number(typed)) : refuse(typed, 'a down from 1st to 4th');
    }
    case 'to go':
      if (/^g(oal)?$/i.test(typed))
        return context.spot === null
          ? refuse(typed, 'the spot first, so that goal to go has a length')
          : known(100 - context.spot);
      return wholeFrom(typed, 1, 99);
    case 'number':
      return /^[+-]?\d{1,2}([.,]\d)?$/.test(typed)
        ? known(Number(typed.replace(',', '.')))
        : refuse(typed, 'a number of yards such as 2 or -1.5');
    case 'spot':
      return spotFrom(typed);
    case 'clock':
      return clockFrom(typed);
    case 'score':
      return wholeFrom(typed, 0, 200);
    case 'runner':
      return runnerFrom(typed, context.runners);
    case 'yes':
      if (/^y(es)?$/i.test(typed)) return known(true);
      return /^no?$/i.test(typed) ? known(false) : refuse(typed, 'yes or no');
    case 'text':
      return typed.length <= 200
        ? known(typed)
        : refuse(`${typed.slice(0, 20)}…`, `at most 200 letters, this has ${typed.length}`);
  }
}

/** The words that stand in the sentence for a value; empty for none. */
export function writeBlank(blank: Blank, value: BlankValue, context: BlankContext): string {
  if (value === null) return '';
  const { takes } = blank;
  switch (takes.kind) {
    case 'down':
      return ordinals[Number(value)] ?? String(value);
    case 'to go':
      return context.spot !== null && Number(value) === 100 - context.spot ? 'goal' : String(value);
    case 'spot':
      return spotInWords(Number(value));
    case 'clock':
      return `${Math.floor(Number(value) / 60)}:${String(Number(value) % 60).padStart(2, '0')}`;
    case 'runner':
      return context.runners.find(({ id }) => id === value)?.name ?? '';
    case 'yes':
      return value === true ? 'yes' : 'no';
    case 'whole':
      return takes.inWords ? (numbers[Number(value)] ?? String(value)) : String(value);
    case 'choice':
    case 'number':
    case 'score':
    case 'text':
      return String(value);
  }
}

/** True when what is typed can only mean one thing and no key more is needed, so the next blank may take the focus. */
export function isComplete(blank: Blank, text: string): boolean {
  const typed = text.trim().toLowerCase();
  const { takes } = blank;
  switch (takes.kind) {
    case 'choice':
      return takes.choices.some(({ letter }) => letter === typed);
    case 'down':
      return /^[1-4]$/.test(typed);
    case 'yes':
      return typed === 'y' || typed === 'n';
    case 'whole':
      // A count that could still grow a second figure waits: 1 may become 11. Yards that may be lost always wait for
      // Enter: a gain of 5 and one of 14 end alike, or the Enter after a 14 would press whatever stands next.
      return (
        takes.low >= 0 &&
        /^\d+$/.test(typed) &&
        (typed.length >= takes.fullAt || Number(typed) * 10 > takes.high) &&
        typed !== '0'
      );
    default:
      return false;
  }
}
