/** The rules by which a carry counts as a success: what share of the yards to go each down asks for. */

/** A share of the yards to go, kept as two whole numbers so that no rounding enters: part / whole. */
export type Share = { readonly part: number; readonly whole: number };

/** One share a down; a name to show beside every rate made with it. */
export type SuccessRule = {
  readonly name: string;
  readonly shares: readonly [first: Share, second: Share, third: Share, fourth: Share];
};

const all: Share = { part: 1, whole: 1 };
const share = (percent: number): Share => ({ part: percent, whole: 100 });

/**
 * 40 %, 60 %, all, all. Source: Carroll, Palmer & Thorn 1988, The Hidden Game of Football, via secondary text.
 */
export const classicRule: SuccessRule = {
  name: 'classic',
  shares: [share(40), share(60), all, all],
};

/** 50 %, 70 %, all, all. Source: a published glossary of college team ratings, as quoted in secondary text. */
export const collegeRule: SuccessRule = {
  name: 'college',
  shares: [share(50), share(70), all, all],
};

/**
 * One's own rule from four shares in whole percent (0 to 100; 0 asks only that nothing is lost). Throws RangeError on
 * other numbers.
 */
export function ownRule(name: string, percents: readonly [number, number, number, number]): SuccessRule {
  const [first, second, third, fourth] = percents;
  const rule: SuccessRule = { name, shares: [share(first), share(second), share(third), share(fourth)] };
  checkRule(rule);
  return rule;
}

/** Throws RangeError unless each share is made of whole numbers with 0 <= part <= whole and whole from 1 to 10,000. */
export function checkRule(rule: SuccessRule): void {
  for (const { part, whole } of rule.shares) {
    if (
      !(Number.isInteger(part) && Number.isInteger(whole) && part >= 0 && part <= whole && whole >= 1 && whole <= 1e4)
    ) {
      throw new RangeError(
        `a share of the yards to go wants whole numbers from 0 to all of it, got ${part} of ${whole}`,
      );
    }
  }
}
