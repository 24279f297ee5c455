/** A whole dossier view, built by rule from a seed: an invented runner, school and games. */
import { readFileSync } from 'node:fs';
import type { CarryView, DossierView, GradeView, SheetView, ShareView, DeltaView } from '../../src/contract/views.ts';
import { defaultRubric } from '../../src/core/rubric/default-rubric.ts';

/** A UUID that is the same for the same number. */
export const uuid = (number: number): string => `00000000-0000-4000-8000-${number.toString(16).padStart(12, '0')}`;

/** Numbers in [0, 1) that are the same for the same seed (Park & Miller's multiplier). */
export function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}

export const known = <Value>(value: Value) => ({ known: true, value }) as const;
export const unknown = (detail: string) => ({ known: false, because: 'too few', detail }) as const;

const rubric: SheetView['rubric']['body'] = {
  families: defaultRubric.families.map((family) => ({
    ...family,
    traits: family.traits.map((trait) => {
      const [one, two, three, four, five] = trait.anchors;
      return { ...trait, anchors: [one, two, three, four, five] };
    }),
  })),
  bars: defaultRubric.bars.map((bar) => ({ ...bar })),
};

export function gradeOf(grade: number, half: number, carries: number, more: Partial<GradeView> = {}): GradeView {
  return {
    grade,
    low: grade - half,
    high: grade + half,
    information: carries * 0.8,
    effective: carries * 0.9,
    marks: carries,
    carries,
    games: 2,
    thin: carries < 20,
    chance: {
      professional: Math.min(0.98, Math.max(0.02, 0.5 + (grade - 3.4) / 1.6)),
      college: Math.min(0.99, 0.5 + (grade - 2.9) / 1.3),
    },
    assumed: carries < 20 ? ['The spread between games is the documented default: fewer than 10 games can tell.'] : [],
    ...more,
  };
}

const drawn: Readonly<Record<string, readonly [grade: number, half: number, carries: number]>> = {
  press: [3.9, 0.4, 41],
  tempo: [4.2, 0.35, 52],
  crease: [3.5, 0.4, 55],
  penetration: [3.3, 0.65, 17],
  steps: [2.7, 0.35, 58],
  cut: [3.4, 0.4, 49],
  pace: [3.6, 0.45, 44],
  pads: [3.2, 0.4, 51],
};

export function shareOf(hits: number, n: number): ShareView {
  const rate = hits / n;
  const half = 0.98 / Math.sqrt(n);
  return { rate, low: Math.max(0, rate - half), high: Math.min(1, rate + half), hits, n, small: n < 15 };
}

export function deltaOf(mean: number, n: number): DeltaView {
  return { mean, standardError: 7.9 / Math.sqrt(n), shrunk: (mean * n) / (n + 180), n, small: n < 15 };
}

const situations = ['1st and 10 at own 34', '2nd and 8 at own 41', '3rd and 2 at opponent 12', '2nd and 5 at midfield'];
const runs = ['power right', 'outside zone left', 'inside zone', 'counter left'];

export function carriesOf(count: number): CarryView[] {
  const random = seeded(7);
  return Array.from({ length: count }, (_, at) => {
    const expected = 3.4 + 2.4 * random();
    const burst = random();
    const gain = Math.round(burst > 0.94 ? 12 + 30 * random() : -3 + 8 * (random() + burst));
    return {
      number: at + 1,
      partId: uuid(1000 + at),
      playId: uuid(3000 + at),
      gameId: uuid(at < 33 ? 1 : 2),
      spanId: uuid(5000 + at),
      situation: situations[at % situations.length] ?? '',
      run: runs[at % runs.length] ?? '',
      gain,
      expected,
      delta: gain - expected,
      success: gain >= 5,
      counts: true,
      decided: at % 9 === 8,
      marks: {
        press: {
          state: 'shown',
          value: 2 + (at % 6) / 2,
          clearness: at % 3 === 0 ? 'partial' : 'clear',
          spanId: uuid(5000 + at),
          frame: 40,
        },
        steps: { state: 'shown', value: 2 + (at % 3) / 2, clearness: 'clear', spanId: uuid(5000 + at), frame: 61 },
      },
      note: at % 11 === 0 ? 'Second level read before the exchange.' : null,
    };
  });
}

export function sheetOf(): SheetView {
  const carries = carriesOf(61);
  const deltas = carries.flatMap(({ delta }) => (delta === null ? [] : [delta]));
  const mean = deltas.reduce((sum, delta) => sum + delta, 0) / deltas.length;
  const random = seeded(11);
  return {
    runner: {
      id: uuid(9),
      name: 'Dez Okafor-Lyle',
      teamId: uuid(8),
      jersey: 22,
      position: 'Running back',
      classYear: 'junior',
      heightInches: 70,
      weightPounds: 207,
      note: null,
    },
    team: 'Harlan Ridge',
    evaluator: 'R. Amari',
    rubric: { id: uuid(7), number: 3, name: 'Default rubric', body: rubric },
    carries,
    games: [
      {
        gameId: uuid(1),
        label: 'Harlan Ridge at Coldwater, week 9',
        logged: 33,
        gain: 141,
        official: 36,
        officialYards: 158,
      },
      {
        gameId: uuid(2),
        label: 'Harlan Ridge – Bellmoor, week 10',
        logged: 28,
        gain: 149,
        official: 30,
        officialYards: null,
      },
    ],
    completeness: known({ logged: 61, official: 66, share: 61 / 66, complete: true }),
    successRule: 'half of the distance on first down, seven tenths on second, all of it on third and fourth',
    model: 'college runners, from down, distance and spot',
    success: known(shareOf(32, 61)),
    delta: known(deltaOf(mean, 61)),
    successOverExpected: known({ mean: 0.061, shrunk: 0.019, n: 61 }),
    overall: known({ ...gradeOf(3.45, 0.28, 61, { thin: false }), coverage: 1 }),
    families: rubric.families.map((family, at) => ({
      key: family.key,
      name: family.name,
      weight: family.weight,
      grade: known({
        ...gradeOf([3.8, 3.2, 3.6, 3.1][at] ?? 3, at === 3 ? 0.8 : 0.3, at === 3 ? 19 : 58),
        coverage: 1,
      }),
      traits: family.traits.map((trait) => {
        const [grade, half, count] = drawn[trait.key] ?? [
          3 + random(),
          0.35 + 0.4 * random(),
          15 + Math.floor(random() * 40),
        ];
        return {
          key: trait.key,
          name: trait.name,
          weight: trait.weight,
          grade: known(gradeOf(grade, half, count)),
          shown: count,
          notShown: Math.max(0, 55 - count),
          unseen: 4,
          unlooked: 2,
        };
      }),
    })),
    splits: [
      {
        field: 'Down',
        rows: [
          { label: 'First', n: 29, success: known(shareOf(14, 29)), delta: known(deltaOf(0.6, 29)) },
          { label: 'Second', n: 21, success: known(shareOf(12, 21)), delta: known(deltaOf(0.3, 21)) },
          { label: 'Third and fourth', n: 11, success: known(shareOf(6, 11)), delta: known(deltaOf(-0.4, 11)) },
        ],
      },
      {
        field: 'Decided games',
        rows: [
          { label: 'Without decided games', n: 55, success: known(shareOf(29, 55)), delta: known(deltaOf(0.5, 55)) },
          { label: 'Decided only', n: 6, success: known(shareOf(3, 6)), delta: known(deltaOf(-0.9, 6)) },
        ],
      },
      {
        field: 'Scheme',
        rows: [
          { label: 'Zone', n: 34, success: known(shareOf(17, 34)), delta: known(deltaOf(-0.2, 34)) },
          { label: 'Gap', n: 26, success: known(shareOf(15, 26)), delta: known(deltaOf(1.2, 26)) },
          {
            label: 'Not charted',
            n: 1,
            success: unknown('One carry gives no rate.'),
            delta: unknown('One carry gives no mean.'),
          },
        ],
      },
      {
        field: 'Men in the box',
        rows: [
          { label: 'Six or fewer', n: 20, success: known(shareOf(12, 20)), delta: known(deltaOf(1.1, 20)) },
          { label: 'Seven', n: 28, success: known(shareOf(14, 28)), delta: known(deltaOf(0.2, 28)) },
          { label: 'Eight or more', n: 13, success: known(shareOf(6, 13)), delta: known(deltaOf(-0.6, 13)) },
        ],
      },
    ],
    history: [],
    thin: [
      'Answer to penetration rests on 17 carries.',
      'Two games only: the spread between games is assumed, not estimated.',
    ],
  };
}

/** Still ids as the study gives them, and the pictures behind them. */
export const stillIds = ['a1'.repeat(16), 'b2'.repeat(16), 'c3'.repeat(16)] as const;
export function stillsOf(): ReadonlyMap<string, Uint8Array> {
  return new Map(
    stillIds.map((id, at) => [
      id,
      new Uint8Array(readFileSync(new URL(`./stills/still-${at + 1}.jpg`, import.meta.url))),
    ]),
  );
}

export function dossierOf(change: Partial<DossierView> = {}): DossierView {
  return {
    sheet: sheetOf(),
    studyName: 'autumn-class',
    evaluatorName: 'R. Amari',
    date: '2026-11-14',
    programVersion: '0.1.0',
    writeupId: null,
    role: 'Lead of a two-back rotation in a gap scheme; first two downs and the goal line.',
    fit: 'Best behind pullers, where his patience counts. Least at home running wide zone to the boundary.',
    change:
      'Only 17 carries show penetration early; mark the two unlogged series against Coldwater. No third game yet: the spread between games is a guess.',
    verdict: [
      {
        text: 'Reads the second level early and lets power plays form in front of him.',
        cites: [7, 12, 31],
        against: [44],
      },
      {
        text: 'Turns late on outside zone: five short steps where three would do, and the edge closes.',
        cites: [9, 18, 40],
        against: [52],
      },
      { text: 'Good enough to share a backfield now; more if the turn gets shorter.', cites: [22, 57], against: [] },
    ],
    evidence: [
      evidenceOf(
        31,
        stillIds[0],
        '2nd and 8, power right, gain of 9',
        'Waits on the kick-out, then one cut. Tempo 4½.',
        false,
      ),
      evidenceOf(
        18,
        stillIds[1],
        '1st and 10, outside zone left, gain of 1',
        'Five steps to turn; the safety is there. Steps 2.',
        false,
      ),
      evidenceOf(44, stillIds[2], '3rd and 2, inside zone, gain of 1', 'Misses the backside crease. Crease 2.', true),
      evidenceOf(
        12,
        stillIds[1],
        '2nd and 5, counter left, gain of 6',
        'Presses to the heels of the puller; the end follows him inside.',
        false,
      ),
      evidenceOf(57, null, '1st and 10, power right, gain of 14', 'Leaves the cut at full speed.', false),
    ],
    ...change,
  };
}

export function evidenceOf(
  number: number,
  stillId: string | null,
  heading: string,
  caption: string,
  against: boolean,
): DossierView['evidence'][number] {
  return {
    number,
    partId: uuid(999 + number),
    heading,
    caption,
    against,
    filmId: uuid(70),
    frame: 1000 + number,
    stillId,
    missing:
      stillId === null
        ? 'No still: the film “coldwater-end-zone.mp4” is not where the study says; add it again.'
        : null,
    picture: {
      width: 640,
      height: 360,
      chalk: [
        {
          kind: 'arrow',
          points: [
            [250, 230],
            [300, 236],
            [340, 200],
            [430, 110],
          ],
          text: null,
        },
        {
          kind: 'ring',
          points: [
            [420, 170],
            [440, 210],
          ],
          text: 'the reader',
        },
      ],
    },
  };
}

/** The same view with nothing marked, charted or written. */
export function emptyDossier(): DossierView {
  const full = sheetOf();
  const none = unknown('No mark of this trait yet.');
  return dossierOf({
    sheet: {
      ...full,
      runner: { ...full.runner, position: null, classYear: null, heightInches: null, weightPounds: null, jersey: null },
      team: null,
      evaluator: null,
      carries: [],
      games: [],
      completeness: unknown(
        'No official line is in the study for this runner, so nobody can tell how much is missing.',
      ),
      success: unknown('No counted carry has down, to go and gain.'),
      delta: unknown('No counted carry has an expected gain.'),
      successOverExpected: unknown('No counted carry has an expected gain.'),
      overall: unknown('Less than .6 of the weight has marks; an overall grade would be mostly assumption.'),
      families: full.families.map((family) => ({
        ...family,
        grade: unknown('No trait of this family is marked.'),
        traits: family.traits.map((trait) => ({
          ...trait,
          grade: none,
          shown: 0,
          notShown: 0,
          unseen: 0,
          unlooked: 0,
        })),
      })),
      splits: [],
      history: [],
      thin: [],
    },
    role: null,
    fit: null,
    change: null,
    verdict: [],
    evidence: [],
  });
}
