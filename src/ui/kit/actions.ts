import { useEffect } from 'react';
import { create } from 'zustand';

/** One thing a person can do: shown in the palette and the menu, bound to its keys while it is registered. */
export type Action = {
  /** Stable name, also the key of help and tests. */
  readonly name: string;
  /** Key as tinykeys writes it (`Shift+ArrowLeft`, `$mod+z`); several are alternatives. */
  readonly keys?: readonly string[];
  /** The heading it stands under. */
  readonly group: string;
  readonly run: () => void;
  /** Runs also while a text field has the focus. */
  readonly everywhere?: boolean;
  /** Not offered in the palette: keys that only make sense on the spot. */
  readonly quiet?: boolean;
};

type Registered = { readonly owner: symbol; readonly actions: readonly Action[] };

/** Every action registered now, by who registered it. */
export const useActionTable = create<{ readonly owners: readonly Registered[] }>(() => ({ owners: [] }));

/** Registers actions while the calling component is mounted. Pass a stable array. */
export function useActions(actions: readonly Action[]): void {
  useEffect(() => {
    const owner = Symbol('owner');
    useActionTable.setState(({ owners }) => ({ owners: [...owners, { owner, actions }] }));
    return () => useActionTable.setState(({ owners }) => ({ owners: owners.filter((entry) => entry.owner !== owner) }));
  }, [actions]);
}

const keyNames: Readonly<Record<string, string>> = {
  $mod: 'Ctrl',
  ArrowLeft: '←',
  ArrowRight: '→',
  ArrowUp: '↑',
  ArrowDown: '↓',
  Space: 'Space',
  Escape: 'Esc',
};

/** A key as it is printed beside its action. */
export function keyInWords(key: string): string {
  return key
    .split('+')
    .map((part) => keyNames[part] ?? (part.length === 1 ? part.toUpperCase() : part.replace(/^Key|^Digit/, '')))
    .join(' ');
}
