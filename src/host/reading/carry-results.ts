import type { DeltaView } from '../../contract/views.ts';
import { deltaSummary, type Residual } from '../../core/expectation/delta.ts';
import { yardstickOf } from '../../core/expectation/yardstick.ts';
import { mapKnown, type Known } from '../../core/known.ts';
import { rateOf, type Rate } from '../../core/plays/success-rate.ts';
import type { Study } from '../study/study.ts';
import { settingsOf, type LoggedCarry } from './carries.ts';

/** What carries made of their expectation, where both are charted. */
export const residualsOf = (carries: readonly LoggedCarry[]): Residual[] =>
  carries.flatMap(({ figures }) => (figures.known && figures.value.residual !== null ? [figures.value.residual] : []));

/** The success rate of carries whose success can be told. */
export function rateOfCarries(carries: readonly LoggedCarry[]): Known<Rate, 'no carries'> {
  const told = carries.flatMap(({ figures }) =>
    figures.known && figures.value.success !== null ? [figures.value.success] : [],
  );
  return rateOf({ hits: told.filter(Boolean).length, n: told.length });
}

/** The expected-yards delta of carries whose gain is charted. */
export function deltaOfCarries(carries: readonly LoggedCarry[], study: Study): Known<DeltaView, 'no carries'> {
  const { model } = yardstickOf(settingsOf(study));
  return mapKnown(
    deltaSummary(residualsOf(carries), model.spread.delta),
    ({ mean, standardError, shrunk, n, small }) => ({ mean, standardError, shrunk, n, small }),
  );
}
