import type { SheetView } from '../contract/views.ts';
import { findByName } from './find-by-name.ts';
import { gradesTable } from './grades-table.ts';
import { progress } from './progress.ts';
import { withStudy } from './read-only-host.ts';

/** What `creasebook grades` was asked. */
export type GradesAsked = {
  readonly study: string;
  readonly runner: string | undefined;
  readonly evaluator: string | undefined;
  readonly json: boolean;
};

/** One runner in the JSON: the sheet's own figures, none rounded, without its lists of carries and splits. */
export type GradesOfRunner = Pick<
  SheetView,
  | 'overall'
  | 'families'
  | 'success'
  | 'delta'
  | 'successOverExpected'
  | 'completeness'
  | 'successRule'
  | 'model'
  | 'games'
  | 'thin'
> & {
  readonly runner: { readonly id: string; readonly name: string; readonly team: string | null };
  readonly carries: number;
};

/** The sheet's figures as the JSON gives them. */
export function gradesOfRunner({ runner, team, carries, ...sheet }: SheetView): GradesOfRunner {
  const { overall, families, success, delta, successOverExpected, completeness, successRule, model, games, thin } =
    sheet;
  return {
    runner: { id: runner.id, name: runner.name, team },
    carries: carries.length,
    overall,
    families,
    success,
    delta,
    successOverExpected,
    completeness,
    successRule,
    model,
    games,
    thin,
  };
}

/** Reads the grades of one runner, or of all, as text for the standard output; throws a FaultError as the sheet does. */
export async function gradesCommand({ study, runner, evaluator, json }: GradesAsked): Promise<string> {
  return withStudy(study, async (host, directory) => {
    const runners = runner === undefined ? directory.runners : [findByName(directory.runners, runner, 'runner')];
    const by = evaluator === undefined ? null : findByName(directory.evaluators, evaluator, 'evaluator');
    const sheets: SheetView[] = [];
    for (const { id, name } of runners) {
      progress(`Reading ${name}`);
      sheets.push(await host.call('sheet.read', { runnerId: id, evaluatorId: by?.id ?? null }));
    }
    if (!json) return gradesTable(sheets);
    const answer = {
      study: directory.study.name,
      evaluator: by?.name ?? null,
      rubric: sheets[0] === undefined ? null : { number: sheets[0].rubric.number, name: sheets[0].rubric.name },
      runners: sheets.map(gradesOfRunner),
    };
    return `${JSON.stringify(answer, null, 2)}\n`;
  });
}
