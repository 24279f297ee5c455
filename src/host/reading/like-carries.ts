/** What two carries share and where they differ, as the matching weighs it and as a person reads it. */
import type { CarryPair } from '../../contract/comparison-views.ts';
import { spotInWords } from '../../contract/rules.ts';
import type { CarrySituation } from '../../core/comparison/match-carries.ts';
import type { LoggedCarry } from './carries.ts';

/** A carry's situation as the matching compares it; the gap is the one the play was drawn for. */
export function situationFor({ part, play }: LoggedCarry): CarrySituation {
  const { down, toGo, spot, box, direction, designedGap } = play;
  return { id: part.id, down, toGo, spot, box, direction, gap: designedGap };
}

const ordinals = ['1st', '2nd', '3rd', '4th'] as const;

type Feature = {
  readonly name: string;
  readonly read: (carry: LoggedCarry) => string | number | null;
  readonly words: (value: string | number) => string;
};

const features: readonly Feature[] = [
  { name: 'down', read: ({ play }) => play.down, words: (down) => `${ordinals[Number(down) - 1] ?? down} down` },
  { name: 'to go', read: ({ play }) => play.toGo, words: (yards) => `${yards} to go` },
  { name: 'spot', read: ({ play }) => play.spot, words: (spot) => `at ${spotInWords(Number(spot))}` },
  {
    name: 'gap',
    read: ({ play }) => play.designedGap,
    words: (gap) => (gap === 'outside' ? 'outside' : `${gap} gap`),
  },
  { name: 'box', read: ({ play }) => play.box, words: (box) => `${box} in the box` },
  { name: 'direction', read: ({ play }) => play.direction, words: (side) => `to the ${side}` },
  { name: 'scheme', read: ({ play }) => play.scheme, words: (scheme) => `${scheme} scheme` },
  { name: 'concept', read: ({ play }) => play.concept, words: (concept) => String(concept) },
];

/** A pair with what both share ("2nd down") and where they differ ("7 to go against 8 to go"); uncharted ones are named. */
export function carryPairOf(first: LoggedCarry, second: LoggedCarry, cost: number): CarryPair {
  const same: string[] = [];
  const differ: string[] = [];
  for (const { name, read, words } of features) {
    const [one, other] = [read(first), read(second)];
    if (one === null && other === null) continue;
    if (one === null || other === null) differ.push(`${name} charted on one side only`);
    else if (one === other) same.push(words(one));
    else differ.push(`${words(one)} against ${words(other)}`);
  }
  return { first: first.part.id, second: second.part.id, cost, same, differ };
}
