/** Figures as they are printed everywhere: whole words, a true minus sign, and the same rounding on screen and paper. */

const minus = '−';

const months = ['Jan', 'Feb', 'March', 'April', 'May', 'June', 'July', 'Aug', 'Sept', 'Oct', 'Nov', 'Dec'];

/** Rounds away from a "−0.0" that rounding would leave. */
function fixed(value: number, digits: number): string {
  const written = Math.abs(value).toFixed(digits);
  return value < 0 && Number(written) !== 0 ? minus + written : written;
}

/** A mark or grade, 1-5, to one decimal: "3.9". */
export function gradeInFigures(grade: number): string {
  return fixed(grade, 1);
}

/** A mark in halves: "4½". */
export function markInFigures(mark: number): string {
  return Number.isInteger(mark) ? String(mark) : `${Math.floor(mark)}½`;
}

/** A share, 0-1, to `digits` decimals without a leading nought: ".525", "1.000". */
export function shareInFigures(share: number, digits = 3): string {
  return fixed(share, digits).replace(/^(−?)0\./, '$1.');
}

/** Yards with their sign, to one decimal: "+0.4", "−1.2", "0.0". */
export function signedYards(yards: number): string {
  const written = fixed(yards, 1);
  return written.startsWith(minus) || Number(written) === 0 ? written : `+${written}`;
}

/** A difference of shares with its sign: "+.061", "−.019", ".000". */
export function signedShare(share: number): string {
  const written = shareInFigures(share);
  return share > 0 && written !== '.000' ? `+${written}` : written;
}

/** Whole yards with a true minus sign: "9", "−2", "0". */
export function wholeYards(yards: number): string {
  return fixed(yards, 0);
}

/** A count with its word: "1 carry", "61 carries". */
export function countOf(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** A length in inches as feet and inches, halves kept: "5 ft 10½". */
export function feetAndInches(inches: number): string {
  const halves = Math.round(inches * 2);
  const feet = Math.floor(halves / 24);
  return `${feet} ft ${markInFigures((halves - feet * 24) / 2)}`;
}

/** A date "2026-11-14" as "14 Nov 2026"; what is no such date comes back as it is. */
export function dateInWords(date: string): string {
  const [year, month, day] = date.split('-').map(Number);
  const name = months[(month ?? 0) - 1];
  return year === undefined || day === undefined || name === undefined ? date : `${day} ${name} ${year}`;
}

/** Half the width of a 95 % interval around a mean, from its standard error (normal: 1.96 errors). */
export function marginOf(standardError: number): number {
  return 1.96 * standardError;
}
