import { ArrowDown, ArrowUp } from 'lucide-react';
import { movedItem, speeds, type ReelItem } from './reel-list.ts';

const speedWords = { 1: 'as filmed', 0.5: 'half speed', 0.25: 'quarter speed' } as const;

/** The plays of the reel in order: which are in, what each card says, the view and the speed. */
export function ReelRows({
  items,
  disabled,
  onChange,
}: {
  items: readonly ReelItem[];
  disabled: boolean;
  onChange: (items: readonly ReelItem[]) => void;
}) {
  const put = (index: number, next: Partial<ReelItem>): void =>
    onChange(items.map((item, at) => (at === index ? { ...item, ...next } : item)));
  return (
    <ol className="reel-rows" aria-label="Plays of the reel">
      {items.map((item, index) => (
        <li key={`${item.playId} ${item.spanId}`} data-left={item.left}>
          <input
            type="checkbox"
            aria-label={`${item.title}: in the reel`}
            checked={!item.left}
            disabled={disabled}
            onChange={(event) => put(index, { left: !event.target.checked })}
          />
          <span className="reel-card">
            <input
              aria-label="First line of its card"
              value={item.title}
              maxLength={120}
              disabled={disabled}
              onChange={(event) => put(index, { title: event.target.value })}
            />
            <input
              className="reel-caption"
              aria-label="Second line of its card"
              value={item.caption}
              maxLength={200}
              disabled={disabled}
              onChange={(event) => put(index, { caption: event.target.value })}
            />
          </span>
          <select
            aria-label="View"
            value={item.spanId}
            disabled={disabled}
            onChange={(event) => put(index, { spanId: event.target.value })}
          >
            {item.spans.map((span) => (
              <option key={span.id} value={span.id}>
                {span.angle}
                {span.kind === 'live' ? '' : `, ${span.kind}`}
                {item.chalk.some(({ spanId }) => spanId === span.id) ? ', chalk' : ''}
              </option>
            ))}
          </select>
          <select
            aria-label="Speed"
            value={item.speed}
            disabled={disabled}
            onChange={(event) => put(index, { speed: speeds.find((each) => each === Number(event.target.value)) ?? 1 })}
          >
            {speeds.map((speed) => (
              <option key={speed} value={speed}>
                {speedWords[speed]}
              </option>
            ))}
          </select>
          <span className="reel-order">
            <button
              type="button"
              aria-label={`${item.title}: earlier`}
              disabled={disabled || index === 0}
              onClick={() => onChange(movedItem(items, index, -1))}
            >
              <ArrowUp size={16} aria-hidden />
            </button>
            <button
              type="button"
              aria-label={`${item.title}: later`}
              disabled={disabled || index === items.length - 1}
              onClick={() => onChange(movedItem(items, index, 1))}
            >
              <ArrowDown size={16} aria-hidden />
            </button>
          </span>
        </li>
      ))}
    </ol>
  );
}
