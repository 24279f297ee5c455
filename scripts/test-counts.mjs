/** Counting tests from vitest's JSON reports. Plain Node 20, no packages. */

/** @typedef {{ passed: number, failed: number, skipped: number }} Counts */

/**
 * @typedef {object} Report what is used of vitest's JSON report
 * @property {{ name: string, status: string, message?: string, assertionResults: { status: string }[] }[]} testResults
 */

/**
 * Counts one report. A file that broke before its first test is one failure, and so is a run that ended badly without
 * any test to blame, or left no report at all.
 * @param {Report | null} report
 * @param {number} exitCode of the run
 * @returns {Counts}
 */
export function countReport(report, exitCode) {
  /** @type {Counts} */
  const counts = { passed: 0, failed: 0, skipped: 0 };
  for (const { status, assertionResults } of report?.testResults ?? []) {
    for (const test of assertionResults) {
      if (test.status === 'passed') counts.passed += 1;
      else if (test.status === 'failed') counts.failed += 1;
      else counts.skipped += 1;
    }
    if (status === 'failed' && !assertionResults.some((test) => test.status === 'failed')) counts.failed += 1;
  }
  if (counts.failed === 0 && (exitCode !== 0 || report === null)) counts.failed = 1;
  return counts;
}

/**
 * @param {readonly Counts[]} all
 * @returns {Counts}
 */
export function sumOf(all) {
  return all.reduce(
    (sum, { passed, failed, skipped }) => ({
      passed: sum.passed + passed,
      failed: sum.failed + failed,
      skipped: sum.skipped + skipped,
    }),
    { passed: 0, failed: 0, skipped: 0 },
  );
}

/** @param {Counts} counts */
export const inWords = ({ passed, failed, skipped }) => `${passed} passed, ${failed} failed, ${skipped} skipped`;
