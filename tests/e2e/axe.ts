import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright';

/**
 * What axe-core finds wrong by its own rules for WCAG 2.2 A and AA, one line a fault; what a machine can't judge is not
 * claimed. The page has to be opened with `bypassCSP`, for axe comes in as text.
 */
export async function axeFaults(page: Page): Promise<string[]> {
  await page.evaluate(readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8'));
  return page.evaluate<string[]>(
    "axe.run({ runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] }).then(({ violations }) => violations.map(({ id, nodes }) => id + ': ' + nodes.map(({ html, failureSummary }) => html.slice(0, 160) + ' ' + (failureSummary ?? '').slice(0, 160)).slice(0, 4).join(' | ')))",
  );
}
