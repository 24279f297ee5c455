import { useId, type ReactNode } from 'react';

/** A labelled form field; `render` gets the id its control must carry, and the id of its hint. */
export function Field({
  label,
  hint,
  render,
}: {
  label: string;
  hint?: string | undefined;
  render: (ids: { id: string; describedBy: string | undefined }) => ReactNode;
}) {
  const id = useId();
  const hintId = `${id}-hint`;
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      {render({ id, describedBy: hint === undefined ? undefined : hintId })}
      {hint === undefined ? null : (
        <p id={hintId} className="field-hint">
          {hint}
        </p>
      )}
    </div>
  );
}
