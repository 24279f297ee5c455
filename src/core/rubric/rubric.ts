/** What a runner is marked on: families of traits, their weights and anchors, and the bars a grade is held against. */

/** What a mark of 1, 2, 3, 4 and 5 looks like on film, in that order. */
export type Anchors = readonly [string, string, string, string, string];

/** One thing that is marked; `letter` is its key on the keyboard, unique in its rubric. */
export type RubricTrait = {
  readonly key: string;
  readonly name: string;
  readonly letter: string;
  /** Share of the family, from 0; only proportions count. */
  readonly weight: number;
  readonly anchors: Anchors;
};

/** Traits that belong together; `weight` is the family's share of the whole, from 0, only proportions count. */
export type RubricFamily = {
  readonly key: string;
  readonly name: string;
  readonly weight: number;
  readonly traits: readonly RubricTrait[];
};

/** A standard on the 1 to 5 scale, asked as "whose play is this good enough for?". */
export type RubricBar = {
  readonly key: string;
  readonly name: string;
  readonly value: number;
  /** False: provisional, set by hand and not checked against later results. */
  readonly calibrated: boolean;
};

/** Everything a set of marks is read against. */
export type Rubric = { readonly families: readonly RubricFamily[]; readonly bars: readonly RubricBar[] };

/**
 * Lists in plain sentences what is wrong with a rubric: repeated keys or letters, weights that are negative or all
 * zero, blank anchors, a bar outside 1 to 5; an empty list means that it can be used.
 */
export function rubricFaults(rubric: Rubric): readonly string[] {
  const faults: string[] = [];
  const keys = new Set<string>();
  const letters = new Set<string>();
  const claim = (seen: Set<string>, what: string, word: string) => {
    if (seen.has(word)) faults.push(`${what} "${word}" is used twice`);
    seen.add(word);
  };
  const total = (owner: string, weights: readonly number[]) => {
    for (const weight of weights) {
      if (!Number.isFinite(weight) || weight < 0) faults.push(`a weight of ${owner} is ${weight}, wanted 0 or more`);
    }
    if (!weights.some((weight) => weight > 0)) faults.push(`no weight of ${owner} is above 0`);
  };
  total(
    'the families',
    rubric.families.map((family) => family.weight),
  );
  const familyKeys = new Set<string>();
  for (const family of rubric.families) {
    claim(familyKeys, 'family key', family.key);
    total(
      `the family ${family.key}`,
      family.traits.map((trait) => trait.weight),
    );
    for (const trait of family.traits) {
      claim(keys, 'trait key', trait.key);
      claim(letters, 'letter', trait.letter);
      if (trait.anchors.some((anchor) => anchor.trim() === '')) faults.push(`an anchor of ${trait.key} is blank`);
    }
  }
  const barKeys = new Set<string>();
  for (const bar of rubric.bars) {
    claim(barKeys, 'bar key', bar.key);
    if (!(bar.value >= 1 && bar.value <= 5)) faults.push(`the bar ${bar.key} is ${bar.value}, wanted 1 to 5`);
  }
  return faults;
}
