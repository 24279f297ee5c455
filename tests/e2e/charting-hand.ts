import type { SeasonPart, SeasonPlay } from '../../scripts/demo/study/season.ts';
import { concepts } from '../../src/contract/words.ts';
import type { Runner } from '../../src/contract/rows.ts';
import { writeBlank } from '../../src/ui/stage/blank-text.ts';
import type { Blank } from '../../src/ui/stage/blank.ts';
import { blanks } from '../../src/ui/stage/blanks.ts';
import type { Sitting } from './sitting.ts';

/** What the season says in each blank that a first pass or a full charting fills, by the blank's name; in no order. */
export type Wanted = Readonly<Record<string, string | number | null>>;

/** The blanks of a first pass. `runner` is a row's name. */
export function firstPassOf(play: SeasonPlay, part: SeasonPart, runnerId: string): Wanted {
  return {
    down: play.down,
    'to go': play.toGoYards,
    spot: play.spotYards,
    hash: play.hash,
    concept: play.kind === 'pass' ? 'pass' : (concepts.find((word) => word === play.concept) ?? 'other'),
    direction: play.direction ?? null,
    runner: runnerId,
    gain: part.gainYards ?? play.gainYards,
  };
}

/** What a full charting adds. */
export function fullOf(play: SeasonPlay, part: SeasonPart): Wanted {
  return {
    gap: play.designedGap?.gap ?? null,
    hit: play.hitGap?.gap ?? null,
    box: play.boxCount,
    'point of attack': play.pointOfAttack ?? null,
    'contact at': part.firstContactSlot === undefined ? null : (part.yardsBeforeContact ?? null),
  };
}

const blankNamed = (name: string): Blank => {
  const found = blanks.find((blank) => blank.name === name);
  if (found === undefined) throw new Error(`The sentence has no blank named ${name}.`);
  return found;
};

/** The fewest keys that say a value in its blank, as its hint tells them. */
function typedFor(blank: Blank, value: string | number, runners: readonly Runner[]): string {
  const { takes } = blank;
  if (takes.kind === 'choice') return takes.choices.find((choice) => choice.value === value)?.letter ?? String(value);
  if (takes.kind === 'spot') return Number(value) <= 50 ? String(value) : `o${100 - Number(value)}`;
  if (takes.kind === 'runner') return String(runners.find(({ id }) => id === value)?.jersey ?? '');
  return String(value);
}

/**
 * Fills the sentence that has just opened, as a practised hand does: back to the first blank whose prediction is wrong,
 * then on with Tab, typing where what stands is not what is wanted, and Enter after the last. Every key is counted.
 */
export async function fillSentence(sitting: Sitting, wanted: Wanted, runners: readonly Runner[]): Promise<void> {
  const { page } = sitting;
  const context = { runners, spot: Number(wanted['spot']), toGo: Number(wanted['to go']) };
  /** The blanks as they stand: name, text, and whether the focus is in it. */
  const standing = (): Promise<{ name: string; text: string; here: boolean }[]> =>
    page.locator('.sentence input').evaluateAll((inputs) =>
      inputs.map((input) => ({
        name: (input as HTMLInputElement).name,
        text: (input as HTMLInputElement).value,
        here: input === document.activeElement,
      })),
    );
  const isRight = ({ name, text }: { name: string; text: string }): boolean => {
    const value = wanted[name];
    return value === undefined || value === null || text === writeBlank(blankNamed(name), value, context);
  };
  await page.waitForFunction(() => document.activeElement?.closest('.sentence') !== null);
  const first = await standing();
  const start = first.findIndex(({ here }) => here);
  const wrong = first.findIndex((each) => !isRight(each));
  const back = wrong < 0 ? 0 : Math.max(0, start - wrong);
  await sitting.press(...Array.from({ length: back }, () => 'Shift+Tab'));
  for (let turn = 0; turn < 80; turn += 1) {
    const now = await standing();
    const at = now.findIndex(({ here }) => here);
    const here = now[at];
    if (here === undefined) throw new Error('The focus left the sentence.');
    const value = wanted[here.name];
    const more = now.slice(at + 1).some((each) => !isRight(each));
    if (!isRight(here) && value !== undefined && value !== null) {
      await sitting.type(typedFor(blankNamed(here.name), value, runners));
      const went = await page.evaluate(() => document.activeElement?.getAttribute('name'));
      if (went !== here.name) {
        if (!more) {
          await sitting.press('Enter');
          break;
        }
        continue;
      }
    }
    if (!more) {
      await sitting.press('Enter');
      break;
    }
    // Over what stands right or is not asked for, one Tab a blank.
    const on = now.slice(at + 1).findIndex((each) => !isRight(each)) + 1;
    await sitting.press(...Array.from({ length: on }, () => 'Tab'));
  }
  // A practised hand leaves the sentence before it marks.
  const inside = await page.evaluate(() => document.activeElement?.matches('.sentence input, .sentence .more'));
  if (inside === true) await sitting.press('Escape');
  await page.waitForFunction(() => document.activeElement?.matches('.sentence input') !== true);
}
