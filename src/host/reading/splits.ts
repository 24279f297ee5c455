import type { SheetView } from '../../contract/views.ts';
import { situationOf } from '../../core/plays/situation.ts';
import {
  distanceBand,
  distanceBands,
  fieldZone,
  fieldZones,
  runSide,
  runSides,
} from '../../core/plays/situation-facts.ts';
import { splitBy } from '../../core/plays/splits.ts';
import type { Study } from '../study/study.ts';
import type { LoggedCarry } from './carries.ts';
import { deltaOfCarries, rateOfCarries } from './carry-results.ts';

type Field = {
  readonly field: string;
  readonly keyOf: (carry: LoggedCarry) => string | null;
  readonly order?: readonly string[];
};

const ordinals = ['1st down', '2nd down', '3rd down', '4th down'];

const fromSituation =
  (read: (situation: { down: 1 | 2 | 3 | 4; toGo: number; yardsToGoal: number }) => string) =>
  ({ play }: LoggedCarry): string | null => {
    const situation = situationOf(play);
    return situation.known ? read(situation.value) : null;
  };

const fields: readonly Field[] = [
  {
    field: 'Down',
    keyOf: ({ play }) => (play.down === null ? null : (ordinals[play.down - 1] ?? null)),
    order: ordinals,
  },
  { field: 'To go', keyOf: fromSituation(distanceBand), order: distanceBands },
  { field: 'Field zone', keyOf: fromSituation(fieldZone), order: fieldZones },
  { field: 'Concept', keyOf: ({ play }) => play.concept },
  { field: 'Scheme', keyOf: ({ play }) => play.scheme },
  { field: 'Direction', keyOf: ({ play }) => play.direction, order: ['left', 'middle', 'right'] },
  {
    field: 'Side',
    keyOf: ({ play }) => {
      const side = runSide(play.hash, play.direction);
      return side.known ? side.value : null;
    },
    order: runSides,
  },
  {
    field: 'Box',
    keyOf: ({ play }) => (play.box === null ? null : play.box >= 8 ? '8 or more' : play.box <= 6 ? '6 or fewer' : '7'),
    order: ['6 or fewer', '7', '8 or more'],
  },
  { field: 'Point of attack', keyOf: ({ part }) => part.pointOfAttack, order: ['won', 'stalemate', 'lost'] },
  { field: 'Path', keyOf: ({ part }) => part.path, order: ['on track', 'bend', 'bounce'] },
  { field: 'Game', keyOf: ({ decided }) => (decided ? 'decided' : 'open'), order: ['open', 'decided'] },
];

/** Success and delta cut by each charted field; carries without the field stand last as "not charted". */
export function splitsOf(carries: readonly LoggedCarry[], study: Study): SheetView['splits'] {
  return fields.map(({ field, keyOf, order }) => ({
    field,
    rows: splitBy(
      carries,
      keyOf,
      (group) => ({ success: rateOfCarries(group), delta: deltaOfCarries(group, study) }),
      order ?? [],
    ).map(({ label, n, answer }) => ({ label: label ?? 'not charted', n, ...answer })),
  }));
}
