import type { Action } from '../kit/actions.ts';

/** The actions with others laid over them: a key of those is taken from these, and an action left without is only named. */
export function actionsOver(under: readonly Action[], over: readonly Action[]): Action[] {
  const taken = new Set(over.flatMap(({ keys = [] }) => keys));
  const left = under.flatMap((action): Action[] => {
    const { keys, ...rest } = action;
    if (keys === undefined) return [action];
    const free = keys.filter((key) => !taken.has(key));
    if (free.length > 0) return [{ ...rest, keys: free }];
    return action.quiet === true ? [] : [rest];
  });
  return [...left, ...over];
}
