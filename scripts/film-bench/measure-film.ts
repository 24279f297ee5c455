import { readdirSync, readFileSync } from 'node:fs';
import type { FilmPage } from '../../tests/film/film-page.ts';
import type { BenchTools } from './bench-tools.ts';

/** Median and 95th percentile of some milliseconds. */
export type Spread = { readonly median: number; readonly p95: number; readonly n: number };

/** What was measured of one film. Rates are a second, memory in bytes. */
export type FilmFigures = {
  readonly stepOn: Spread;
  readonly stepBack: Spread;
  readonly elementStep: Spread;
  readonly elementWrong: number;
  readonly jump: Spread;
  readonly bareGroup: Spread;
  readonly scrub: number;
  readonly reverse: number;
  readonly draw: Spread;
  readonly elementDraw: Spread;
  readonly cutting: number;
  readonly bareDecode: number;
  readonly mostBytes: number;
  readonly budget: number;
  readonly memoryBefore: number;
  readonly memoryAfter: number;
  /** Steps the memory was watched over. */
  readonly steps: number;
};

function spread(values: readonly number[]): Spread {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (share: number): number =>
    sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
  return { median: at(0.5), p95: at(0.95), n: sorted.length };
}

/** Bytes of memory of this process's descendants that are browsers; 0 where /proc is not to be had. */
function browserMemory(): number {
  try {
    const processes = readdirSync('/proc').filter((name) => /^\d+$/.test(name));
    const parents = new Map(
      processes.flatMap((name) => {
        try {
          const fields = readFileSync(`/proc/${name}/stat`, 'utf8').split(') ').at(-1)?.split(' ') ?? [];
          return [[Number(name), { parent: Number(fields[1]), bytes: Number(fields[21]) * 4096 }] as const];
        } catch {
          return [];
        }
      }),
    );
    const ours = (id: number): boolean => {
      const parent = parents.get(id)?.parent;
      return parent === process.pid || (parent !== undefined && parent > 1 && ours(parent));
    };
    return [...parents].reduce((sum, [id, { bytes }]) => sum + (ours(id) ? bytes : 0), 0);
  } catch {
    return 0;
  }
}

/** Measures everything of one film in the page, in one run. `steps`: how many steps the memory is watched over. */
export async function measureFilm(page: FilmPage, film: string, steps: number): Promise<FilmFigures> {
  /** Calls one of the page's measurements by name. */
  const run = <Name extends keyof BenchTools>(
    name: Name,
    ...args: Parameters<BenchTools[Name]>
  ): Promise<Awaited<ReturnType<BenchTools[Name]>>> => {
    console.error(`${film}: ${name}`);
    return page.page.evaluate(
      ({ name, args }) => {
        const { bench } = globalThis as unknown as { bench: Record<string, (...args: unknown[]) => unknown> };
        return bench[name]?.(...args);
      },
      { name, args },
    ) as Promise<Awaited<ReturnType<BenchTools[Name]>>>;
  };
  const steppedOn = await run('steps', film, 1, 300);
  const steppedBack = await run('steps', film, -1, 300);
  const element = await run('elementSteps', film, 60);
  const jumps = await run('jumps', film, 40);
  const scrub = await run('scrub', film, 3);
  const reverse = await run('reverse', film, 4);
  const draws = await run('draws', film, 60);
  const bareBefore = await run('bareDecode', film);
  const cutting = await run('cutting', film);
  const bareAfter = await run('bareDecode', film);
  await run('beginSoak', film);
  const early = await run('soak', Math.floor(steps / 5));
  const memoryBefore = browserMemory();
  const late = await run('soak', steps - Math.floor(steps / 5));
  const memoryAfter = browserMemory();
  const budget = await run('endSoak');
  return {
    stepOn: spread(steppedOn),
    stepBack: spread(steppedBack),
    elementStep: spread(element.times),
    elementWrong: element.wrong,
    jump: spread(jumps.ours),
    bareGroup: spread(jumps.bare),
    scrub,
    reverse,
    draw: spread(draws.ours),
    elementDraw: spread(draws.element),
    cutting,
    bareDecode: (bareBefore + bareAfter) / 2,
    mostBytes: Math.max(early, late),
    budget,
    memoryBefore,
    memoryAfter,
    steps,
  };
}
