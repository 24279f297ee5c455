/** What must never be in an answer: NaN, an infinity, undefined, or a record or list that is empty without a reason. */

/** Paths of everything unsound in a value; an empty list means that it is sound. */
export function unsound(value: unknown, path = 'answer'): readonly string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} is ${value}`];
  if (value === undefined) return [`${path} is undefined`];
  if (value === null || typeof value !== 'object') return [];
  if (ArrayBuffer.isView(value)) return unsound([...(value as Float64Array)], path);
  if ('known' in value && value.known === false) {
    const { because, detail } = value as { because?: unknown; detail?: unknown };
    const said = typeof because === 'string' && because !== '' && typeof detail === 'string' && detail !== '';
    return said ? [] : [`${path} is unknown without a reason`];
  }
  return Object.entries(value).flatMap(([key, one]) => unsound(one, `${path}.${key}`));
}
