/** A blank of the play sentence: what it takes, and the words around it. */

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
export function choices(values: readonly string[], letters: Readonly<Record<string, string>> = {}): Takes {
  const taken = new Set(Object.values(letters));
  return {
    kind: 'choice',
    choices: values.map((value) => {
      const letter =
        letters[value] ??
        value
          .toLowerCase()
          .split('')
          .find((each) => /[a-z]/.test(each) && !taken.has(each)) ??
        '';
      taken.add(letter);
      return { value, letter };
    }),
  };
}

export const whole = (low: number, high: number, fullAt: number): Takes => ({
  kind: 'whole',
  low,
  high,
  fullAt,
  inWords: false,
});
/** Small counts read as words: two tight ends. */
export const count = (high: number, fullAt: number): Takes => ({ kind: 'whole', low: 0, high, fullAt, inWords: true });

type Made = Pick<Blank, 'name' | 'table' | 'column' | 'takes' | 'hint'> & Partial<Blank>;
export const blank = (made: Made): Blank => ({
  before: '',
  after: '',
  core: false,
  telling: false,
  ordinary: [],
  startsClause: false,
  ...made,
});
