import fc from 'fast-check';
import type { Down, Situation } from '../../../src/core/plays/situation.ts';

/** Every possible snap. */
export const situations: fc.Arbitrary<Situation> = fc
  .tuple(fc.constantFrom<Down[]>(1, 2, 3, 4), fc.integer({ min: 1, max: 99 }), fc.nat(98))
  .map(([down, yardsToGoal, some]) => Object.freeze({ down, toGo: 1 + (some % yardsToGoal), yardsToGoal }));
