import type { DossierView } from '../contract/views.ts';
import { countOf, dateInWords, feetAndInches } from './in-figures.ts';

/** Who the runner is and how much of him was seen, in one line: position, team and year, size, games, carries. */
export function runnerInWords({ sheet: { runner, team, carries, games, completeness } }: DossierView): string {
  const size = [
    ...(runner.heightInches === null ? [] : [feetAndInches(runner.heightInches)]),
    ...(runner.weightPounds === null ? [] : [`${Math.round(runner.weightPounds)} lb`]),
  ].join(', ');
  const school = [team, runner.classYear].filter((word) => word !== null && word !== '').join(', ');
  const logged = completeness.known
    ? `${completeness.value.logged} of ${completeness.value.official} carries logged`
    : `${countOf(carries.length, 'carry', 'carries')} logged, official line not known`;
  return [runner.position ?? 'Running back', school, size, countOf(games.length, 'game', 'games'), logged]
    .filter((words) => words !== '')
    .join(' · ');
}

/** The head of page one: the runner, who judged him, and when. */
export function DossierHead({ view }: { readonly view: DossierView }) {
  return (
    <header className="dossier-head">
      <div className="who">
        <h1>{view.sheet.runner.name}</h1>
        <p>{runnerInWords(view)}</p>
      </div>
      <div className="by">
        <p>Creasebook dossier</p>
        <p>
          {view.evaluatorName} · {dateInWords(view.date)}
        </p>
      </div>
    </header>
  );
}
