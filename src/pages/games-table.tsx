import type { SheetView } from '../contract/views.ts';
import { Reason } from './reason.tsx';

const figureOr = (value: number | null): string => (value === null ? 'not known' : String(value));

/** Each game's logged carries and yards beside its official line, and what share of the official carries is logged. */
export function GamesTable({
  sheet: { games, completeness },
}: {
  readonly sheet: Pick<SheetView, 'games' | 'completeness'>;
}) {
  return (
    <table className="figures games" aria-label="Logged against the official line">
      <thead>
        <tr>
          <th scope="col">Game</th>
          <th scope="col">Carries logged</th>
          <th scope="col">Official</th>
          <th scope="col">Yards logged</th>
          <th scope="col">Official</th>
        </tr>
      </thead>
      <tbody>
        {games.map((game) => (
          <tr key={game.gameId}>
            <th scope="row">{game.label}</th>
            <td>{game.logged}</td>
            <td>{figureOr(game.official)}</td>
            <td>{game.gain}</td>
            <td>{figureOr(game.officialYards)}</td>
          </tr>
        ))}
        {games.length === 0 && (
          <tr>
            <td colSpan={5} className="words reason">
              No game is in the study yet.
            </td>
          </tr>
        )}
      </tbody>
      <tfoot>
        <tr>
          <td colSpan={5} className="words">
            {completeness.known ? <Completeness value={completeness.value} /> : <Reason detail={completeness.detail} />}
          </td>
        </tr>
      </tfoot>
    </table>
  );
}

type Line = Extract<SheetView['completeness'], { known: true }>['value'];

function Completeness({ value: { logged, official, share, complete } }: { readonly value: Line }) {
  const percent = Math.floor(share * 100);
  return complete ? (
    <>
      {logged} of {official} official carries are logged, {percent} %.
    </>
  ) : (
    <strong>
      Only {logged} of {official} official carries are logged, {percent} %: what is here may be a selection.
    </strong>
  );
}
