import type { ReactNode } from 'react';

/** What may be wider than its place: scrolled sideways, by keys too. */
export function ScrollX({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return (
    // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- a scroller that keys cannot reach hides its far side
    <div className="scroll-x" tabIndex={0} role="region" aria-label={`${label}, scrolls sideways`}>
      {children}
    </div>
  );
}
