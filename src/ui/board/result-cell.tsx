import type { BoardColumn, BoardResults } from '../../contract/comparison-views.ts';
import { marginOf, shareInFigures, signedYards } from '../../pages/in-figures.ts';

/** What stands over each column of results. */
export const columnName: Readonly<Record<BoardColumn, string>> = {
  success: 'Success',
  delta: 'Yards over expected',
  carries: 'Carries',
  games: 'Games',
  completeness: 'Logged',
};

type Told = { readonly words: string; readonly interval: string; readonly small: boolean; readonly title: string };

function tell(column: BoardColumn, result: BoardResults): Told {
  switch (column) {
    case 'success': {
      if (!result.success.known) return none(result.success.detail);
      const { rate, low, high, n, small } = result.success.value;
      const interval = `${shareInFigures(low)}–${shareInFigures(high)}`;
      return { words: shareInFigures(rate), interval, small, title: `${n} carries${small ? ', few' : ''}` };
    }
    case 'delta': {
      if (!result.delta.known) return none(result.delta.detail);
      const { mean, standardError, n, small } = result.delta.value;
      const interval = `± ${marginOf(standardError).toFixed(1)}`;
      return { words: signedYards(mean), interval, small, title: `${n} carries${small ? ', few' : ''}` };
    }
    case 'carries':
      return { words: String(result.carries), interval: '', small: false, title: '' };
    case 'games':
      return { words: String(result.games), interval: '', small: false, title: '' };
    case 'completeness': {
      if (!result.completeness.known) return none(result.completeness.detail);
      const { logged, official, complete } = result.completeness.value;
      const title = complete ? '' : 'Under 90 % of the official carries are logged';
      return { words: `${logged}/${official}`, interval: complete ? '' : 'not all', small: !complete, title };
    }
  }
}

const none = (title: string): Told => ({ words: '–', interval: '', small: true, title });

/** One result of a runner with its interval beneath; few carries are grey and say so. */
export function ResultCell({
  column,
  result,
}: {
  readonly column: BoardColumn;
  readonly result: BoardResults | undefined;
}) {
  if (result === undefined) return <td className="number muted" />;
  const { words, interval, small, title } = tell(column, result);
  return (
    <td className={small ? 'number small-sample' : 'number'} title={title === '' ? undefined : title}>
      {words}
      {words === '–' ? <span className="read-aloud">{title}</span> : null}
      {interval === '' ? null : (
        <span className="rank-about">
          {interval}
          {small && column !== 'completeness' ? ', few' : ''}
        </span>
      )}
    </td>
  );
}
