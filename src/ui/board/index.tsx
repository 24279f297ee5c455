import { useCallback, useMemo } from 'react';
import type { BoardChoice, BoardView } from '../../contract/comparison-views.ts';
import '../../pages/charts.css';
import { useActions, type Action } from '../kit/actions.ts';
import { Button } from '../kit/button.tsx';
import { Empty } from '../kit/empty.tsx';
import { WithTable } from '../kit/with-table.tsx';
import { go, say, usePlace } from '../link/place.ts';
import { Apart } from './apart.tsx';
import { BoardFilter } from './board-filter.tsx';
import { choose, useBoard } from './board-store.ts';
import { firstInWords, nearestSwapInWords } from './in-words.ts';
import { Pairwise } from './pairwise.tsx';
import { Ranking, RankingTable } from './ranking.tsx';
import { SavedBoards } from './saved-boards.tsx';
import { BarKey } from './score-strip.tsx';
import { useAnswer, type ShownBoard } from './use-answer.ts';
import { useBoardView } from './use-board-view.ts';
import { useDraws } from './use-draws.ts';
import { WatchNext } from './watch-next.tsx';
import { Weights } from './weights.tsx';
import './board.css';

/** Opens the two runners picked in Side by side, or says how to pick them. */
function setSideBySide(): void {
  const [first, second] = useBoard.getState().compare;
  if (first === undefined || second === undefined) {
    say('Pick two runners first: the boxes at the right of their rows.');
    return;
  }
  go({ room: 'side by side', runnerId: first, otherRunnerId: second });
}

const actions: readonly Action[] = [
  { name: 'Set the two picked side by side', group: 'Board', keys: ['c'], run: setSideBySide },
  {
    name: 'The rubric’s own weights',
    group: 'Board',
    keys: ['r'],
    run: () => choose({ families: {}, traits: {} }),
  },
  {
    name: 'Place thin runners too, or not',
    group: 'Board',
    keys: ['t'],
    run: () => choose({ includeThin: !useBoard.getState().choice.includeThin }),
  },
  { name: 'Print the board', group: 'Board', keys: ['p'], run: () => window.print() },
];

/** The class ranked, with how sure each place is; weights answer at once. */
export function Board() {
  const { directory, evaluatorId } = usePlace();
  const { whose, choice, columns, compare } = useBoard();
  const { view, results, next } = useBoardView(whose === 'own' ? evaluatorId : null);
  const draws = useDraws(view);
  const shown = useAnswer(view, draws, choice);
  useActions(actions);
  const runners = useMemo(() => new Map((view?.runners ?? []).map((runner) => [runner.id, runner])), [view]);
  const nameOf = useCallback((id: string) => runners.get(id)?.name ?? 'a runner no longer here', [runners]);
  const ends = useMemo(() => new Map((shown?.rest?.rows ?? []).map((row) => [row.runner, row])), [shown?.rest]);
  if (directory === null) return null;
  if (directory.runners.length === 0) {
    return (
      <Empty title="No runner yet">
        <p>The Board ranks runners by their marks. Add a game on the Stage, name its runners and mark their carries.</p>
        <Button kind="chosen" onClick={() => go({ room: 'stage' })}>
          Go to the Stage
        </Button>
      </Empty>
    );
  }
  return (
    <div className="board" data-settled={shown?.settled === true}>
      <header className="room-head">
        <h1>Board</h1>
        <span className="spring" />
        <SavedBoards />
        <label className="row">
          <span className="muted">Marks by</span>
          <select
            value={whose}
            onChange={(event) => useBoard.setState({ whose: event.target.value === 'all' ? 'all' : 'own' })}
          >
            <option value="own">{directory.evaluators.find(({ id }) => id === evaluatorId)?.name ?? 'me'}</option>
            <option value="all">all evaluators</option>
          </select>
        </label>
        <Button onClick={setSideBySide} disabled={compare.length < 2}>
          Side by side
        </Button>
        <Button kind="quiet" onClick={() => window.print()}>
          Print
        </Button>
      </header>
      {view === null || shown === null ? (
        <p className="muted board-wait" role="status">
          {view === null ? 'Reading the class…' : 'Drawing the class 2,000 times…'}
        </p>
      ) : (
        <div className="board-columns-wide">
          <div className="board-main">
            <p className="board-print-head">
              Board of {directory.study.name}. Marks by{' '}
              {whose === 'own'
                ? (directory.evaluators.find(({ id }) => id === evaluatorId)?.name ?? 'nobody')
                : 'all evaluators'}
              ; {view.rubric.name}, version {view.rubric.number}.{filterInWords(choice)}
            </p>
            {shown.standings.known ? (
              <>
                <Headline view={view} shown={shown} nameOf={nameOf} />
                <BoardFilter view={view} choice={choice} columns={columns} />
                <WithTable
                  title="The class in order, with the chance of each place"
                  note="Bars: chance of each place, height by its square root; the stronger ones hold 9 times in 10."
                  chart={
                    <>
                      <Ranking
                        standings={shown.standings.value}
                        ends={ends}
                        settled={shown.settled}
                        runners={runners}
                        results={results}
                        columns={columns}
                        compare={compare}
                        bars={view.rubric.body.bars}
                      />
                      <BarKey bars={view.rubric.body.bars} />
                    </>
                  }
                  table={<RankingTable standings={shown.standings.value} ends={ends} runners={runners} />}
                />
              </>
            ) : (
              <>
                <NoRanking shown={shown} because={shown.standings.because} detail={shown.standings.detail} />
                <BoardFilter view={view} choice={choice} columns={columns} />
              </>
            )}
            <div className="board-below">
              <Apart field={shown.field} runners={runners} includeThin={choice.includeThin} />
              <WatchNext next={next} nameOf={nameOf} />
            </div>
            {shown.rest === null || !shown.standings.known ? null : <Pairwise rest={shown.rest} nameOf={nameOf} />}
          </div>
          <Weights
            rubric={view.rubric.body}
            choice={choice}
            rest={shown.standings.known ? shown.rest : null}
            nameOf={nameOf}
          />
        </div>
      )}
    </div>
  );
}

function filterInWords({ position, classYear, atLeast }: BoardChoice): string {
  const said = [position, classYear, atLeast > 0 ? `at least ${atLeast} carries` : null].filter(
    (word) => word !== null,
  );
  return said.length === 0 ? '' : ` Only: ${said.join(', ')}.`;
}

function Headline({
  view,
  shown,
  nameOf,
}: {
  readonly view: BoardView;
  readonly shown: ShownBoard;
  readonly nameOf: (id: string) => string;
}) {
  if (!shown.standings.known) return null;
  const { headline, rest } = firstInWords(shown.standings.value, nameOf);
  const weightName = (kind: 'family' | 'trait', key: string): string => {
    const families = view.rubric.body.families;
    const named = kind === 'family' ? families : families.flatMap(({ traits }) => traits);
    return named.find((each) => each.key === key)?.name ?? key;
  };
  const swap = shown.rest === null ? null : nearestSwapInWords(shown.rest, weightName, nameOf);
  return (
    <div className="board-headline">
      <p className="board-first">{headline}</p>
      <p>{rest}</p>
      <p className="muted">
        {shown.rest === null ? ' ' : (swap ?? 'No single weight, moved alone, changes who is first.')}{' '}
        {shown.standings.value.length} of {view.runners.length} runners placed, {view.draws.toLocaleString('en')} draws.
      </p>
    </div>
  );
}

function NoRanking({
  shown,
  because,
  detail,
}: {
  readonly shown: ShownBoard;
  readonly because: 'not comparable' | 'no marks' | 'no weight' | 'fewer than two';
  readonly detail: string;
}) {
  const { whose } = useBoard();
  const thin = shown.field.apart.length > 0;
  return (
    <section className="no-ranking" aria-label="No order">
      <h2>{because === 'not comparable' ? 'Not comparable' : 'No order can be given'}</h2>
      <p>{detail}</p>
      <div className="row">
        {because === 'no weight' ? (
          <Button kind="chosen" onClick={() => choose({ families: {}, traits: {} })}>
            The rubric’s own weights
          </Button>
        ) : null}
        {because === 'not comparable' ? (
          <>
            <p className="muted">
              Let both mark some of the same carries on the Stage, or rank one evaluator’s marks alone.
            </p>
            <Button kind="chosen" onClick={() => useBoard.setState({ whose: 'own' })}>
              Only my marks
            </Button>
          </>
        ) : null}
        {because === 'fewer than two' || because === 'no marks' ? (
          <>
            {whose === 'own' ? (
              <Button kind="chosen" onClick={() => useBoard.setState({ whose: 'all' })}>
                Everybody’s marks
              </Button>
            ) : null}
            {thin ? <Button onClick={() => choose({ includeThin: true })}>Place thin runners too</Button> : null}
            {shown.field.filtered > 0 ? (
              <Button onClick={() => choose({ position: null, classYear: null, atLeast: 0 })}>Drop the filter</Button>
            ) : null}
            <Button onClick={() => go({ room: 'stage' })}>Mark carries on the Stage</Button>
          </>
        ) : null}
      </div>
    </section>
  );
}
