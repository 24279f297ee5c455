/** A drawn class in a real study: runners of known talent, games, carries, marks by two evaluators; the same every time. */
import { add, type ChangeStep } from '../../src/contract/changes.ts';
import { rubricBody } from '../../src/contract/rows.ts';
import { defaultRubric } from '../../src/core/rubric/default-rubric.ts';
import { randomFrom } from '../../src/core/random.ts';
import { uid } from './small-study.ts';

export const classOf = {
  one: uid(1),
  other: uid(2),
  rubric: uid(8),
  runner: (at: number): string => uid(1000 + at),
} as const;

const names = [
  'Dez Okafor-Lyle',
  'Tavian Brask',
  'Jonah Quillane',
  'Marcus Adeyemi-Holt',
  'Rell Castellan',
  'Owen Pryce-Tanaka',
  'Kofi Drummond',
  'Luis Varga-Stone',
  'Amos Threlkeld',
  'Theo Lindqvist',
] as const;

export type ClassPlan = {
  readonly runners: number;
  readonly games: number;
  readonly carries: number;
  /** Points between the best and the last runner's talent; 1.4 if not given. */
  readonly spread?: number;
  /** Who marks a carry: all the carries of a runner by one evaluator if not given. */
  readonly by?: (runner: number, carry: number) => readonly string[];
  /** Films of the study under the carries, one a runner in turn; each carry takes a second and a half until the film is used up. */
  readonly films?: readonly { readonly id: string; readonly frames: number; readonly rate: number }[];
};

/**
 * Steps that make the class. The last runner but one has a single game, the last no marks. Every fifth carry is left
 * unmarked. A carry on film has its exchange a third into its span, its plant two thirds.
 */
export function classSteps({ runners, games, carries, spread = 1.4, by, films = [] }: ClassPlan): ChangeStep[] {
  const random = randomFrom(77);
  const whole = (low: number, high: number): number => low + Math.floor(random.uniform() * (high - low + 1));
  const traits = defaultRubric.families.flatMap((family) => family.traits.map(({ key }) => key));
  const steps: ChangeStep[] = [
    add('evaluator', { id: classOf.one, name: 'R. Amari' }),
    add('evaluator', { id: classOf.other, name: 'T. Osgaard' }),
    add('team', { id: uid(3), name: 'Harlan Ridge' }),
    add('team', { id: uid(4), name: 'Coldwater' }),
    add('rubricVersion', {
      id: classOf.rubric,
      number: 1,
      name: 'Default rubric',
      body: rubricBody.parse(defaultRubric),
      madeAt: 0,
    }),
  ];
  const usedTo = films.map(() => 0);
  let next = 10_000;
  const newId = (): string => uid((next += 1));
  for (let runner = 0; runner < runners; runner += 1) {
    const runnerId = classOf.runner(runner);
    const talent = 3 + spread / 2 - (spread * runner) / Math.max(1, runners - 1);
    const own = traits.map(() => talent + 0.25 * random.normal());
    steps.push(
      add('runner', {
        id: runnerId,
        name: names[runner] ?? `Runner ${String(runner + 1).padStart(2, '0')}`,
        teamId: runner % 2 === 0 ? uid(3) : uid(4),
        position: runner % 4 === 3 ? 'fullback' : 'running back',
        classYear: ['sophomore', 'junior', 'senior'][runner % 3] ?? null,
      }),
    );
    const unmarked = runner === runners - 1 && runners > 2;
    for (let game = 0; game < (runner === runners - 2 && runners > 3 ? 1 : games); game += 1) {
      const gameId = newId();
      steps.push(add('game', { id: gameId, season: 2025, week: game + 1, homeTeamId: uid(3), awayTeamId: uid(4) }));
      if (game % 2 === 0) {
        steps.push(
          add('officialLine', { id: newId(), gameId, runnerId, attempts: carries + (runner % 3), yards: 4 * carries }),
        );
      }
      for (let carry = 0; carry < carries; carry += 1) {
        const [playId, partId, spanId] = [newId(), newId(), newId()];
        const down = whole(1, 3);
        const spot = whole(15, 80);
        const gain = Math.min(100 - spot, whole(-2, 9) + (random.uniform() < 0.08 ? whole(8, 30) : 0));
        const designedGap = (['A', 'B', 'C', 'outside'] as const)[whole(0, 3)] ?? 'A';
        steps.push(
          add('play', {
            id: playId,
            gameId,
            position: carry + 1,
            quarter: 1 + Math.floor((4 * carry) / carries),
            scoreFor: 7,
            scoreAgainst: 10,
            offenceTeamId: uid(3),
            down,
            toGo: Math.min(100 - spot, down === 1 ? 10 : whole(1, 9)),
            spot,
            box: whole(5, 8),
            designedGap,
            scheme: carry % 2 === 0 ? 'zone' : 'gap',
            concept: carry % 2 === 0 ? 'inside zone' : 'counter',
            direction: carry % 3 === 0 ? 'left' : 'right',
            gain,
          }),
          add('part', { id: partId, playId, runnerId, gain }),
        );
        const at = runner % Math.max(1, films.length);
        const film = films[at];
        const length = Math.floor((film?.rate ?? 1) * 1.5);
        const from = usedTo[at] ?? 0;
        if (film !== undefined && from + length < film.frames) {
          usedTo[at] = from + length + 1;
          steps.push(
            add('span', {
              id: spanId,
              playId,
              filmId: film.id,
              inFrame: from,
              inTime: from / film.rate,
              outFrame: from + length,
              outTime: (from + length) / film.rate,
              timeScale: 1,
            }),
            ...(['exchange', 'plant'] as const).map((name, third) => {
              const frame = from + Math.floor((length * (third + 1)) / 3);
              return add('moment', { id: newId(), spanId, partId, name, frame, time: frame / film.rate });
            }),
          );
        }
        if (unmarked || carry % 5 === 4) continue;
        for (const evaluatorId of by?.(runner, carry) ?? [classOf.one]) {
          for (const [place, trait] of traits.entries()) {
            if ((carry + place) % 3 === 0) continue;
            const value = Math.min(5, Math.max(1, Math.round(2 * ((own[place] ?? 3) + 0.8 * random.normal())) / 2));
            steps.push(
              add('mark', {
                id: newId(),
                partId,
                evaluatorId,
                rubricVersionId: classOf.rubric,
                trait,
                state: 'shown',
                value,
                clearness: carry % 4 === 0 ? 'partial' : 'clear',
                markedAt: 1000 + next,
              }),
            );
          }
        }
      }
    }
  }
  return steps;
}
