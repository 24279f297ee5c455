import { useState } from 'react';
import { add, remove, set } from '../../../contract/changes.ts';
import type { Part } from '../../../contract/rows.ts';
import { holdsAnswers } from '../../../contract/words.ts';
import { newId } from '../../link/change.ts';
import { usePlace } from '../../link/place.ts';
import { changeStage, useStage } from '../stage-store.ts';

const words = { yes: 'yes', no: 'no', 'cannot tell': 'can’t tell' } as const;

/** Whether what worked here holds against professional pursuit: yes, no, can't tell, because. */
export function Holds({ part }: { part: Part }) {
  const holdings = useStage((stage) => stage.game?.holdings);
  const evaluatorId = usePlace((place) => place.evaluatorId);
  const [typed, setTyped] = useState<string | null>(null);
  const own = holdings?.find((each) => each.partId === part.id && each.evaluatorId === evaluatorId);
  if (evaluatorId === null) return null;
  const answer = (next: (typeof holdsAnswers)[number]): void => {
    const label = `Holds against professional pursuit: ${words[next]}`;
    if (own === undefined)
      void changeStage(label, [add('holding', { id: newId(), partId: part.id, evaluatorId, answer: next })]);
    else if (own.answer === next) void changeStage('Pursuit: not answered', [remove('holding', own.id)]);
    else void changeStage(label, [set('holding', own.id, { answer: next })]);
  };
  const keep = (): void => {
    const because = typed?.trim() ?? '';
    setTyped(null);
    if (own === undefined || typed === null || because === (own.because ?? '')) return;
    void changeStage('Pursuit: because', [set('holding', own.id, { because: because === '' ? null : because })]);
  };
  return (
    <div className="ledger-holds" role="group" aria-label="Holds against professional pursuit">
      <p>
        Holds against professional pursuit?{' '}
        {holdsAnswers.map((each) => (
          <button key={each} type="button" aria-pressed={own?.answer === each} onClick={() => answer(each)}>
            {words[each]}
          </button>
        ))}
      </p>
      {own === undefined ? null : (
        <label>
          because{' '}
          <input
            aria-label="Because"
            autoComplete="off"
            value={typed ?? own.because ?? ''}
            onChange={(event) => setTyped(event.target.value)}
            onBlur={keep}
            onKeyDown={(event) => {
              if (event.key === 'Enter') event.currentTarget.blur();
            }}
          />
        </label>
      )}
    </div>
  );
}
