import type { ReactNode } from 'react';

/** What a room shows when it has nothing: a sentence, and what to do next. */
export function Empty({ title, children }: { title: string; children?: ReactNode }) {
  return (
    <div className="empty">
      <h2>{title}</h2>
      {children}
    </div>
  );
}
