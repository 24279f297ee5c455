import { useVirtualizer } from '@tanstack/react-virtual';
import { useRef } from 'react';
import type { CarryView, SheetView } from '../../contract/views.ts';
import { go } from '../link/place.ts';

const rowHeight = 30;

const signed = (value: number | null): string =>
  value === null ? '' : `${value >= 0 ? '+' : '−'}${Math.abs(value).toFixed(1)}`;

function markWords(carry: CarryView, trait: string): string {
  const mark = carry.marks[trait];
  if (mark === undefined) return 'not yet looked';
  if (mark.value === null) return mark.state;
  return `${Math.floor(mark.value)}${mark.value % 1 === 0 ? '' : '½'}${mark.clearness === null || mark.clearness === 'clear' ? '' : `, ${mark.clearness}`}`;
}

/** The runner's carries, or those behind one trait; each opens its film at the frame where the mark was given. */
export function CarryList({ sheet, trait }: { sheet: SheetView; trait: string | null }) {
  const box = useRef<HTMLDivElement>(null);
  const carries = trait === null ? sheet.carries : sheet.carries.filter(({ marks }) => marks[trait] !== undefined);
  const rows = useVirtualizer({
    count: carries.length,
    getScrollElement: () => box.current,
    estimateSize: () => rowHeight,
    overscan: 8,
  });
  if (carries.length === 0)
    return (
      <p className="muted">
        {trait === null ? 'No carry is logged yet.' : 'This trait is not marked on any carry yet.'}
      </p>
    );
  const height = rows.getTotalSize();
  return (
    <div className="carry-list" ref={box} role="list" aria-label="Carries">
      <div className="carry-space" ref={(node) => node?.style.setProperty('height', `${height}px`)}>
        {rows.getVirtualItems().map(({ index, start }) => {
          const carry = carries[index];
          if (carry === undefined) return null;
          return (
            <div
              key={carry.partId}
              role="listitem"
              className="carry-row"
              ref={(node) => node?.style.setProperty('transform', `translateY(${start}px)`)}
            >
              <button type="button" onClick={() => open(carry, trait)}>
                <span className="number">{carry.number}</span>
                <span>{carry.situation}</span>
                <span className="carry-run">{carry.run}</span>
                <span className="number">{carry.expected === null ? '' : `expected ${carry.expected.toFixed(1)}`}</span>
                <span className="number">{signed(carry.delta)}</span>
                <span>{carry.success === null ? '' : carry.success ? '✓ success' : 'no success'}</span>
                <span className={trait === null ? 'muted' : 'mark-value'}>
                  {trait === null ? `${Object.keys(carry.marks).length} marks` : markWords(carry, trait)}
                </span>
                <span className="muted">{carry.counts ? (carry.decided ? 'decided game' : '') : 'not counted'}</span>
              </button>
            </div>
          );
        })}
      </div>
    </div>
  );
}

function open(carry: CarryView, trait: string | null): void {
  const mark = trait === null ? undefined : carry.marks[trait];
  const spanId = mark?.spanId ?? carry.spanId;
  go({ room: 'stage', gameId: carry.gameId, playId: carry.playId, showing: { spanId, frame: mark?.frame ?? null } });
}
