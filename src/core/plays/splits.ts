/** Splitting carries by anything that can be said of them. */

/** One group of a split. `label` is null for what the key could not say (not charted). */
export type SplitRow<Answer> = { readonly label: string | null; readonly n: number; readonly answer: Answer };

/**
 * Splits items by a key and measures each group. Rows come in the given order of labels, others after them by label
 * (numbers in it by size), what has no key last; a label in the order without items is left out. Each item is in
 * exactly one row, in its own order.
 */
export function splitBy<Item, Answer>(
  items: readonly Item[],
  keyOf: (item: Item) => string | null,
  measure: (group: readonly Item[]) => Answer,
  order: readonly string[] = [],
): readonly SplitRow<Answer>[] {
  const groups = new Map<string | null, Item[]>();
  for (const item of items) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [item]);
    else group.push(item);
  }
  const place = new Map(order.map((label, at) => [label, at]));
  const labels = [...groups.keys()].sort((a, b) => {
    if (a === null || b === null) return a === b ? 0 : a === null ? 1 : -1;
    const first = place.get(a) ?? order.length;
    const second = place.get(b) ?? order.length;
    return first - second || compareLabels(a, b);
  });
  return labels.map((label) => {
    const group = groups.get(label) ?? [];
    return { label, n: group.length, answer: measure(group) };
  });
}

/** Labels that begin with numbers go by those numbers, the rest by code unit, so that no locale enters. */
function compareLabels(a: string, b: string): number {
  const first = Number.parseFloat(a);
  const second = Number.parseFloat(b);
  if (Number.isFinite(first) && Number.isFinite(second) && first !== second) return first - second;
  return a < b ? -1 : a > b ? 1 : 0;
}
