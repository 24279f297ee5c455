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
  readonly same: (value: string | number) => string;
  readonly differ: (one: string | number, other: string | number) => string;
};

const downOf = (down: string | number): string => ordinals[Number(down) - 1] ?? String(down);
const gapOf = (gap: string | number): string => (gap === 'outside' ? 'outside' : `${gap} gap`);
const against = (one: string | number, other: string | number): string => `${one} against ${other}`;

const features: readonly Feature[] = [
  {
    name: 'down',
    read: ({ play }) => play.down,
    same: (down) => `${downOf(down)} down`,
    differ: (one, other) => `${against(downOf(one), downOf(other))} down`,
  },
  {
    name: 'to go',
    read: ({ play }) => play.toGo,
    same: (yards) => `${yards} to go`,
    differ: (one, other) => `${against(one, other)} to go`,
  },
  {
    name: 'spot',
    read: ({ play }) => play.spot,
    same: (spot) => `at ${spotInWords(Number(spot))}`,
    differ: (one, other) => against(spotInWords(Number(one)), spotInWords(Number(other))),
  },
  {
    name: 'gap',
    read: ({ play }) => play.designedGap,
    same: gapOf,
    differ: (one, other) => against(gapOf(one), gapOf(other)),
  },
  {
    name: 'box',
    read: ({ play }) => play.box,
    same: (box) => `${box} in the box`,
    differ: (one, other) => `${against(one, other)} in the box`,
  },
  {
    name: 'direction',
    read: ({ play }) => play.direction,
    same: (side) => `to the ${side}`,
    differ: (one, other) => `to the ${against(one, other)}`,
  },
  {
    name: 'scheme',
    read: ({ play }) => play.scheme,
    same: (scheme) => `${scheme} scheme`,
    differ: (one, other) => `${against(one, other)} scheme`,
  },
  { name: 'concept', read: ({ play }) => play.concept, same: String, differ: against },
];

/** A pair with what both share ("2nd down") and where they differ ("7 against 8 to go"); one-sided charting is named. */
export function carryPairOf(first: LoggedCarry, second: LoggedCarry, cost: number): CarryPair {
  const shared: string[] = [];
  const apart: string[] = [];
  for (const { name, read, same, differ } of features) {
    const [one, other] = [read(first), read(second)];
    if (one === null && other === null) continue;
    if (one === null || other === null) apart.push(`${name} charted on one side only`);
    else if (one === other) shared.push(same(one));
    else apart.push(differ(one, other));
  }
  return { first: first.part.id, second: second.part.id, cost, same: shared, differ: apart };
}
