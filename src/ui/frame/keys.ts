import { useEffect } from 'react';
import { tinykeys } from 'tinykeys';
import { useActionTable } from '../kit/actions.ts';
import { dialogOpen } from '../kit/dialog-open.ts';

function inTextField(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLElement &&
    (target.isContentEditable || target.matches('input:not([type=range]):not([type=checkbox]), textarea, select'))
  );
}

/** Binds the keys of every registered action to the window; later registrations come first. */
export function useActionKeys(): void {
  const owners = useActionTable((table) => table.owners);
  useEffect(() => {
    const bindings: Record<string, (event: KeyboardEvent) => void> = {};
    for (const { actions } of owners) {
      for (const action of actions) {
        for (const key of action.keys ?? []) {
          bindings[key] = (event) => {
            if (event.defaultPrevented) return;
            if (action.everywhere !== true && (inTextField(event.target) || dialogOpen())) return;
            event.preventDefault();
            action.run();
          };
        }
      }
    }
    return tinykeys(window, bindings);
  }, [owners]);
}
