import { Dialog } from '../kit/dialog.tsx';
import { keyInWords, useActionTable, type Action } from '../kit/actions.ts';

/** The keys that work now, by group, from the same table that binds them. */
export function KeyList({ open, onClose }: { open: boolean; onClose: () => void }) {
  const owners = useActionTable((table) => table.owners);
  const groups = new Map<string, Action[]>();
  for (const { actions } of owners) {
    for (const action of actions) {
      if (action.keys !== undefined) groups.set(action.group, [...(groups.get(action.group) ?? []), action]);
    }
  }
  return (
    <Dialog title="Keys" open={open} onClose={onClose} wide>
      <div className="key-list">
        {[...groups].map(([group, actions]) => (
          <section key={group}>
            <h3>{group}</h3>
            <dl>
              {actions.map((action) => (
                <div key={action.name}>
                  <dt>
                    {action.keys?.map((key) => (
                      <kbd key={key}>{keyInWords(key)}</kbd>
                    ))}
                  </dt>
                  <dd>{action.name}</dd>
                </div>
              ))}
            </dl>
          </section>
        ))}
      </div>
    </Dialog>
  );
}
