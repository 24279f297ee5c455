/** The Board in sentences. */
import type { BoardAnswer } from '../../contract/comparison-views.ts';
import type { Standing } from '../../core/board/standings.ts';

/** A chance as people say it: "87 in 100", and never a certainty the draws cannot give. */
export function chanceInWords(chance: number): string {
  const whole = Math.round(100 * chance);
  if (whole >= 100) return 'more than 99 in 100';
  if (whole <= 0) return 'less than 1 in 100';
  return `${whole} in 100`;
}

/** A chance in a column of figures: "87", "<1", ">99". */
export function chanceInFigures(chance: number): string {
  const whole = Math.round(100 * chance);
  if (whole >= 100) return '>99';
  return whole <= 0 ? '<1' : String(whole);
}

/** A place: "1st", "22nd". */
export function placeInWords(place: number): string {
  const teens = place % 100 >= 11 && place % 100 <= 13;
  const ending = teens ? 'th' : (['th', 'st', 'nd', 'rd'][place % 10] ?? 'th');
  return `${place}${ending}`;
}

/** A range of places: "1st", "1st to 3rd". */
export function placesInWords(from: number, to: number): string {
  return from === to ? placeInWords(from) : `${placeInWords(from)} to ${placeInWords(to)}`;
}

/** Who is first and how sure that is, and who else could be: a headline and what follows it. */
export function firstInWords(
  standings: readonly Standing[],
  nameOf: (runnerId: string) => string,
): { readonly headline: string; readonly rest: string } {
  const [first, ...others] = standings;
  if (first === undefined) return { headline: '', rest: '' };
  const name = nameOf(first.runner);
  const said = chanceInWords(first.best);
  const headline =
    first.best >= 0.95
      ? `${name} is first, almost surely: ${said}.`
      : first.best >= 0.8
        ? `${name} is first, very likely: ${said}.`
        : first.best >= 0.6
          ? `${name} is first, likely but not sure: ${said}.`
          : first.best >= 0.5
            ? `${name} leads, little better than even: ${said} that he is truly first.`
            : `${name} leads, but someone else is more likely first: only ${said} that it is he.`;
  const rivals = others
    .toSorted((a, b) => b.best - a.best)
    .filter(({ best }) => best >= 0.015)
    .slice(0, 3)
    .map(({ runner, best }) => `${nameOf(runner)} ${chanceInWords(best)}`);
  if (rivals.length === 0) return { headline, rest: 'Nobody else has more than 1 chance in 100 to be first.' };
  return { headline, rest: `Chance of being first instead: ${rivals.join(', ')}.` };
}

/** A share of weight as whole percents where that tells it apart, else with a decimal. */
export function shareInPercent(share: number): string {
  return `${(100 * share).toFixed(share < 0.1 && share > 0 ? 1 : 0)} %`;
}

/** What moving one weight alone takes for another to be first: "above 52 % Tavian Brask is first". */
export function swapInWords(
  swap: BoardAnswer['families'][number]['swap'],
  nameOf: (runnerId: string) => string,
): string {
  if (!swap.known) return swap.because === 'never' ? 'No value of it changes who is first.' : swap.detail;
  const { to, change, challenger } = swap.value;
  return `${change > 0 ? 'Above' : 'Below'} ${shareInPercent(to)} ${nameOf(challenger)} is first.`;
}

/** The weight that has to move least for another to be first, in a sentence; null when none can do it. */
export function nearestSwapInWords(
  { families, traits }: BoardAnswer,
  weightName: (kind: 'family' | 'trait', key: string) => string,
  nameOf: (runnerId: string) => string,
): string | null {
  const all = [
    ...families.map((swap) => ({ ...swap, kind: 'family' as const })),
    ...traits.map((swap) => ({ ...swap, kind: 'trait' as const })),
  ].flatMap(({ key, kind, share, swap }) => (swap.known ? [{ key, kind, share, ...swap.value }] : []));
  const [nearest] = all.toSorted((a, b) => Math.abs(a.change) - Math.abs(b.change));
  if (nearest === undefined) return null;
  const { key, kind, share, to, challenger } = nearest;
  return `The order at the top turns soonest on ${weightName(kind, key)}: from ${shareInPercent(share)} to ${shareInPercent(to)}, and ${nameOf(challenger)} is first.`;
}
