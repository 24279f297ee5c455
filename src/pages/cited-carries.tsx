import type { CarryView, DossierView, SheetView } from '../contract/views.ts';
import { markInFigures, signedYards, wholeYards } from './in-figures.ts';

/** Carries that a verdict or the evidence names, in order of their numbers. */
export function citedCarries({ sheet, verdict, evidence }: DossierView): readonly CarryView[] {
  const named = new Set([
    ...verdict.flatMap(({ cites, against }) => [...cites, ...against]),
    ...evidence.map(({ number }) => number),
  ]);
  return sheet.carries.filter(({ number }) => named.has(number)).toSorted((one, other) => one.number - other.number);
}

type Families = SheetView['families'];

function marksInWords({ marks }: CarryView, families: Families): string {
  const written = families.flatMap(({ traits }) =>
    traits.flatMap(({ key, name }) => {
      const mark = marks[key];
      if (mark === undefined || mark.value === null) return [];
      const view = mark.clearness === null || mark.clearness === 'clear' ? '' : ` (${mark.clearness})`;
      return [`${name} ${markInFigures(mark.value)}${view}`];
    }),
  );
  return written.length === 0 ? 'no mark' : written.join(', ');
}

/** The carries a dossier names, with situation, result and marks, each the place its number links to. */
export function CitedCarries({
  carries,
  families,
}: {
  readonly carries: readonly CarryView[];
  readonly families: Families;
}) {
  return (
    <table className="figures cited" aria-label="Carries cited">
      <thead>
        <tr>
          <th scope="col">No.</th>
          <th scope="col" className="words">
            Situation and run
          </th>
          <th scope="col">Gain</th>
          <th scope="col">Expected</th>
          <th scope="col">Delta</th>
          <th scope="col">Success</th>
          <th scope="col" className="words">
            Marks and note
          </th>
        </tr>
      </thead>
      <tbody>
        {carries.map((carry) => (
          <tr key={carry.partId} id={`carry-${carry.number}`}>
            <th scope="row">{carry.number}</th>
            <td className="words">
              {[carry.situation, carry.run].filter((words) => words !== '').join(', ')}
              {!carry.counts && ' (not counted)'}
            </td>
            <td>{carry.gain === null ? 'not charted' : wholeYards(carry.gain)}</td>
            <td>{carry.expected === null ? 'not known' : carry.expected.toFixed(1)}</td>
            <td>{carry.delta === null ? 'not known' : signedYards(carry.delta)}</td>
            <td>{carry.success === null ? 'not known' : carry.success ? 'yes' : 'no'}</td>
            <td className="words">
              {marksInWords(carry, families)}
              {carry.note !== null && carry.note !== '' && <>. {carry.note}</>}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
