import { describe, expect, test } from 'vitest';
import { carryFilm, sideBySideView, type SideBySideView } from '../../src/contract/comparison-views.ts';
import { add, remove, set, type ChangeStep } from '../../src/contract/changes.ts';
import { cliffsDelta } from '../../src/core/comparison/cliffs-delta.ts';
import { compareGrades } from '../../src/core/comparison/compare-grades.ts';
import { welch } from '../../src/core/comparison/welch.ts';
import { newcombe } from '../../src/core/intervals/newcombe.ts';
import { readCarryFilm } from '../../src/host/reading/carry-film.ts';
import { classGrades } from '../../src/host/reading/class-grades.ts';
import { keptMarks } from '../../src/host/reading/kept-marks.ts';
import { readSheet } from '../../src/host/reading/sheet.ts';
import { readSideBySide } from '../../src/host/reading/side-by-side.ts';
import type { Study } from '../../src/host/study/study.ts';
import { valueOf } from '../value-of.ts';
import { faultOfWork, madeStudy, uid } from './small-study.ts';
import { classOf, classSteps, type ClassPlan } from './study-of-class.ts';

const [first, second] = [classOf.runner(0), classOf.runner(1)];
const study = (part: Partial<ClassPlan> = {}, more: (made: Study) => ChangeStep[] = () => []) => {
  const made = madeStudy(classSteps({ runners: 6, games: 3, carries: 12, ...part }));
  const steps = more(made);
  if (steps.length > 0) made.make({ by: null, label: 'A change for the test', steps });
  return made;
};
const read = (made: Study, evaluatorId: string | null = null): SideBySideView =>
  valueOf(readSideBySide(made, first, second, evaluatorId));
const playsOf = (made: Study, runnerId: string) =>
  made.rows.where('part', 'runnerId', runnerId).map((part) => part.playId);

describe('two runners side by side', () => {
  test('have core’s differences, first less second, and the sheet’s own figures', () => {
    const made = study();
    const view = read(made);
    const { runners } = classGrades(made, null);
    const [one, other] = [runners[first], runners[second]];
    if (one === undefined || other === undefined) throw new Error('no grades');
    const core = compareGrades(one, other);
    expect(valueOf(view.overall.difference)).toMatchObject({ chance: valueOf(core.overall).chance });
    for (const family of view.families) {
      expect(valueOf(family.difference).low).toBe(valueOf(core.families[family.key]).low);
      for (const trait of family.traits) {
        const { difference, low, high, chance, thin } = valueOf(core.traits[trait.key]);
        expect(trait.difference).toEqual({ known: true, value: { difference, low, high, chance, thin } });
      }
    }
    const sheets = [readSheet(made, first, null), readSheet(made, second, null)] as const;
    expect([view.first.success, view.second.success]).toEqual(sheets.map(({ success }) => success));
    expect([view.first.delta, view.second.delta]).toEqual(sheets.map(({ delta }) => delta));
    expect(view.first.overall).toEqual(sheets[0].overall);
    const [own, others] = sheets.map(({ success }) => valueOf(success));
    if (own === undefined || others === undefined) throw new Error('no success');
    const { n: _n, ...between } = { n: 0, ...valueOf(newcombe(own, others)) };
    expect(valueOf(view.success)).toEqual({
      ...between,
      first: own.n,
      second: others.n,
      small: own.small || others.small,
    });
    const deltas = sheets.map(({ carries }) =>
      carries.flatMap(({ counts, delta }) => (counts && delta !== null ? [delta] : [])),
    );
    const { difference, low, high, chance } = valueOf(welch(deltas[0] ?? [], deltas[1] ?? []));
    expect(valueOf(view.delta)).toMatchObject({ difference, low, high, chance, first: 36, second: 36, small: false });
    const raw = (id: string) =>
      keptMarks(made, null).flatMap((mark) => (mark.runner === id && mark.trait === 'press' ? [mark.value] : []));
    const cliffs = valueOf(cliffsDelta(raw(first), raw(second)));
    expect(valueOf(view.families[0]?.traits[0]?.raw)).toMatchObject({ delta: cliffs.delta, first: raw(first).length });
  });

  test('turned round are the same differences with the other sign', () => {
    const made = study();
    const [there, back] = [read(made), valueOf(readSideBySide(made, second, first, null))];
    expect(valueOf(back.overall.difference).difference).toBeCloseTo(-valueOf(there.overall.difference).difference, 12);
    expect(valueOf(back.delta).chance).toBeCloseTo(1 - valueOf(there.delta).chance, 12);
    expect(valueOf(back.pairs).pairs).toHaveLength(valueOf(there.pairs).pairs.length);
  });

  test('cross the door in the shapes of the contract', () => {
    const view = read(study());
    expect(sideBySideView.parse(view)).toEqual(view);
  });

  test('have carries in like situations as pairs, each with what both share and where they differ', () => {
    const made = study();
    const { pairs, firstUnpaired, secondUnpaired } = valueOf(read(made).pairs);
    expect(pairs.length + firstUnpaired).toBe(36);
    expect(pairs.length + secondUnpaired).toBe(36);
    expect(pairs.map(({ cost }) => cost)).toEqual(pairs.map(({ cost }) => cost).toSorted((a, b) => a - b));
    expect(new Set(pairs.flatMap((pair) => [pair.first, pair.second])).size).toBe(2 * pairs.length);
    const [closest] = pairs;
    if (closest === undefined) throw new Error('no pair');
    const [one, other] = [closest.first, closest.second].map((id) =>
      made.rows.get('play', made.rows.get('part', id)?.playId ?? ''),
    );
    const nth = (play: typeof one) => ['', '1st', '2nd', '3rd', '4th'][play?.down ?? 0];
    if (one?.down === other?.down) expect(closest.same).toContain(`${nth(one)} down`);
    else expect(closest.differ).toContain(`${nth(one)} against ${nth(other)} down`);
  });

  test('say in words what they rest on too little of', () => {
    const plain = read(study());
    expect(plain.cautions).toEqual(['All marks here are by one evaluator, R. Amari.']);
    const oneCarry = read(
      study({}, (made) =>
        playsOf(made, second)
          .slice(1)
          .map((id) => remove('play', id)),
      ),
    );
    expect(oneCarry.cautions).toContain('Tavian Brask has one carry: one carry says next to nothing.');
    expect(oneCarry.delta).toMatchObject({ known: false, because: 'fewer than two' });
    const oneGame = read(study({ games: 1 }));
    expect(oneGame.cautions).toContain('Dez Okafor-Lyle has one game: how far his games differ is a guess.');
    const noMarks = read(study({ by: (runner) => (runner === 1 ? [] : [classOf.one]) }));
    expect(noMarks.cautions.join(' ')).toContain('Tavian Brask has no marks here');
    expect(noMarks.families[0]?.traits[0]?.difference).toMatchObject({ known: false, because: 'no marks' });
    expect(noMarks.success.known).toBe(true);
    const none = read(study({}, (made) => playsOf(made, first).map((id) => remove('play', id))));
    expect(none.cautions).toContain('Dez Okafor-Lyle has no logged carry: log one on the Stage.');
    expect(none.success).toMatchObject({ because: 'no carries' });
  });

  test('say so when they never ran in the same sort of situation', () => {
    const view = read(
      study({}, (made) => [
        ...playsOf(made, first).map((id) => set('play', id, { down: 1, spot: 15, box: 5, designedGap: 'A' })),
        ...playsOf(made, second).map((id) =>
          set('play', id, { down: 4, spot: 90, toGo: 1, gain: 1, box: 9, designedGap: 'C' }),
        ),
        ...made.rows.where('part', 'runnerId', second).map(({ id }) => set('part', id, { gain: 1 })),
      ]),
    );
    expect(view.pairs).toMatchObject({ known: false, because: 'no pair' });
    expect(view.cautions.at(-1)).toMatch(/never ran in situations close enough to pair/);
  });

  test('by evaluators who share no carry are not compared on grades, and say who would have to look', () => {
    const view = read(study({ by: (runner) => [runner % 2 === 0 ? classOf.one : classOf.other] }));
    expect(view.overall.difference).toMatchObject({ known: false, because: 'not comparable' });
    expect(view.cautions.join(' ')).toContain('(R. Amari; T. Osgaard)');
    expect(view.delta.known).toBe(true);
  });

  test('that are one runner twice give a reason, and one that is not there a fault', async () => {
    const made = study();
    expect(readSideBySide(made, first, first, null)).toMatchObject({
      known: false,
      because: 'same runner',
      detail: 'Dez Okafor-Lyle stands on both sides; choose another runner for one of them.',
    });
    expect(await faultOfWork(() => readSideBySide(made, first, uid(999_999), null))).toMatchObject({
      fault: 'not-found',
    });
  });
});

describe('a carry on film', () => {
  const film = {
    id: uid(70),
    name: 'one.mp4',
    path: 'one.mp4',
    fingerprint: 'f1-aaaaaaaa',
    bytes: 1,
    frames: 600,
    seconds: 10,
    rate: 60,
    width: 640,
    height: 360,
    codec: 'avc1',
  };

  test('is its play’s spans, live ones first, with their moments', () => {
    const made = madeStudy([add('film', film), ...classSteps({ runners: 2, games: 3, carries: 12, films: [film] })]);
    const [part] = made.rows.where('part', 'runnerId', first);
    if (part === undefined) throw new Error('no carry');
    const found = readCarryFilm(made, part.id);
    expect(carryFilm.parse(found)).toEqual(found);
    expect(found.spans.map(({ playId }) => playId)).toEqual([part.playId]);
    expect(found.moments.map(({ name }) => name).toSorted()).toEqual(['exchange', 'plant']);
  });

  test('is empty for a carry that is not cut, and a fault for one that is not there', async () => {
    const made = study({ runners: 2 });
    const [part] = made.rows.where('part', 'runnerId', first);
    expect(readCarryFilm(made, part?.id ?? '')).toEqual({ spans: [], moments: [] });
    expect(await faultOfWork(() => readCarryFilm(made, uid(999_999)))).toMatchObject({ fault: 'not-found' });
  });
});
