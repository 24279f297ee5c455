import { faultOf, FaultError } from '../contract/faults.ts';

type Named = { readonly id: string; readonly name: string };

const listed = (all: readonly Named[]): string => {
  const names = all.slice(0, 12).map(({ name }) => name);
  return all.length > names.length ? `${names.join(', ')} and ${all.length - names.length} more` : names.join(', ');
};

/**
 * Finds the one a person means: by id, by the whole name whatever its case, or by a part of the name that only one has.
 * `what` is the word for it ("runner"). Throws a FaultError when none or several answer to it.
 */
export function findByName<Item extends Named>(all: readonly Item[], asked: string, what: string): Item {
  const wanted = asked.trim().toLocaleLowerCase('en');
  const byId = all.filter(({ id }) => id === wanted);
  const whole = all.filter(({ name }) => name.toLocaleLowerCase('en') === wanted);
  const within = wanted === '' ? [] : all.filter(({ name }) => name.toLocaleLowerCase('en').includes(wanted));
  const found = [byId, whole, within].find((some) => some.length > 0) ?? [];
  const [one, other] = found;
  if (one !== undefined && other === undefined) return one;
  if (one === undefined) {
    const says = `There is no ${what} named “${asked}” in this study.`;
    const next = all.length === 0 ? `It has no ${what} yet.` : `It has ${listed(all)}.`;
    throw new FaultError(faultOf('not-found', says, next));
  }
  const says = `“${asked}” is the name of ${found.length} in this study: ${listed(found)}.`;
  const next = `Give the whole name, or the id: ${found
    .map(({ id }) => id)
    .slice(0, 12)
    .join(', ')}.`;
  throw new FaultError(faultOf('refused', says, next));
}
