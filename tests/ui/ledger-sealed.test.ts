import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import type { StageGame } from '../../src/contract/calls.ts';
import { rows } from '../../src/contract/rows.ts';
import { isWithheld, sealedGame } from '../../src/contract/sealed-game.ts';

const names = new Map<string, string>();
/** A row's id of a name one can read. */
function uid(name: string): string {
  const digest = createHash('sha256').update(name).digest('hex');
  const id = `${digest.slice(0, 8)}-${digest.slice(8, 12)}-4${digest.slice(13, 16)}-8${digest.slice(17, 20)}-${digest.slice(20, 32)}`;
  names.set(id, name);
  return id;
}
const own = uid('evaluator-own');
const other = uid('evaluator-other');
const mark = (
  id: string,
  partId: string,
  evaluatorId: string,
  frame: number | null,
  spanId: string | null = 'span-2',
) =>
  rows.mark.parse({
    id: uid(id),
    partId: uid(partId),
    evaluatorId,
    rubricVersionId: uid('rubric-1'),
    trait: id,
    state: 'shown',
    value: 3,
    clearness: 'clear',
    spanId: frame === null || spanId === null ? null : uid(spanId),
    frame,
    time: frame === null ? null : frame / 30,
    markedAt: 1,
  });
const span = (id: string, playId: string, inFrame: number, outFrame: number, kind = 'live') =>
  rows.span.parse({
    id: uid(id),
    playId: uid(playId),
    filmId: uid('film-1'),
    kind,
    inFrame,
    inTime: inFrame / 30,
    outFrame,
    outTime: outFrame / 30,
    timeScale: kind === 'live' ? 1 : null,
  });
const play = (at: number) =>
  rows.play.parse({
    id: uid(`play-${at}`),
    gameId: uid('game-1'),
    position: at,
    series: 1,
    down: 2,
    toGo: 4,
    spot: 40 + at,
    gain: 7,
    result: 'down',
    note: 'broke it outside',
  });
const part = (at: number) =>
  rows.part.parse({
    id: uid(`part-${at}`),
    playId: uid(`play-${at}`),
    runnerId: uid('runner-1'),
    gain: 7,
    contactAt: 3,
    missedTackles: 2,
  });
const at = (id: string, spanId: string, frame: number) => ({
  id: uid(id),
  spanId: uid(spanId),
  partId: uid('part-2'),
  frame,
  time: frame / 30,
});

const game: StageGame = Object.freeze({
  game: rows.game.parse({ id: uid('game-1'), season: 2031, homeTeamId: uid('team-1'), awayTeamId: uid('team-2') }),
  plays: [1, 2, 3].map(play),
  parts: [1, 2, 3].map(part),
  spans: [
    span('span-1', 'play-1', 0, 90),
    span('span-2', 'play-2', 100, 200),
    span('replay-2', 'play-2', 300, 400, 'replay'),
    span('span-3', 'play-3', 210, 290),
  ],
  moments: [
    rows.moment.parse({ ...at('snap', 'span-2', 110), name: 'snap' }),
    rows.moment.parse({ ...at('decision', 'span-2', 140), name: 'decision' }),
    rows.moment.parse({ ...at('contact', 'span-2', 170), name: 'first contact' }),
    rows.moment.parse({ ...at('replayed', 'replay-2', 310), name: 'snap' }),
    rows.moment.parse({ ...at('next', 'span-3', 215), name: 'snap' }),
  ],
  steps: [
    rows.step.parse({ ...at('step-early', 'span-2', 130), foot: 'left' }),
    rows.step.parse({ ...at('step-late', 'span-2', 150), foot: 'right' }),
  ],
  marks: [
    mark('early', 'part-2', own, 120),
    mark('late', 'part-2', own, 180),
    mark('nowhere', 'part-2', own, null),
    mark('others', 'part-2', other, 120),
    mark('later-play', 'part-3', own, 220, 'span-3'),
    mark('before', 'part-1', other, 50, 'span-1'),
  ],
  holdings: [rows.holding.parse({ id: uid('holding'), partId: uid('part-2'), evaluatorId: other, answer: 'yes' })],
  decisions: [
    rows.decision.parse({
      id: uid('d-own'),
      partId: uid('part-2'),
      evaluatorId: own,
      spanId: uid('span-2'),
      frame: 140,
      time: 4.7,
    }),
    rows.decision.parse({
      id: uid('d-other'),
      partId: uid('part-2'),
      evaluatorId: other,
      spanId: uid('span-2'),
      frame: 140,
      time: 4.7,
    }),
  ],
  lanes: ['d-own', 'd-other'].map((decisionId) =>
    rows.lane.parse({
      id: uid(`l-${decisionId}`),
      decisionId: uid(decisionId),
      position: 1,
      name: 'A',
      state: 'open',
      low: 0,
      likely: 1,
      high: 2,
    }),
  ),
  chalk: [
    rows.chalk.parse({
      id: uid('chalk'),
      spanId: uid('span-2'),
      evaluatorId: own,
      fromFrame: 120,
      toFrame: 190,
      kind: 'line',
      points: [[0, 0]],
    }),
  ],
});
const seal = Object.freeze({ playId: uid('play-2'), spanId: uid('span-2'), frame: 140, evaluatorId: own });
const ids = (list: readonly { readonly id: string }[]): string[] => list.map(({ id }) => names.get(id) ?? id);

describe('a sealed game', () => {
  const told = sealedGame(game, seal, 140 / 30);

  it('tells of the play what stands before the snap, and not what came of it', () => {
    expect(told.plays[1]).toMatchObject({ down: 2, toGo: 4, spot: 42, gain: null, result: null, note: null });
    expect(told.parts[1]).toMatchObject({
      runnerId: uid('runner-1'),
      gain: null,
      contactAt: null,
      missedTackles: null,
    });
  });

  it('ends its span at the frame and leaves out its other spans', () => {
    expect(ids(told.spans)).toEqual(['span-1', 'span-2', 'span-3']);
    expect(told.spans[1]).toMatchObject({ outFrame: 140 });
  });

  it('leaves out later moments, steps and marks, and cuts chalk at the frame', () => {
    expect(ids(told.moments)).toEqual(['snap', 'decision']);
    expect(ids(told.steps)).toEqual(['step-early']);
    expect(ids(told.marks)).toEqual(['early', 'before']);
    expect(told.chalk[0]?.toFrame).toBe(140);
  });

  it('leaves out what other evaluators made of the carry', () => {
    expect(told.holdings).toEqual([]);
    expect(ids(told.decisions)).toEqual(['d-own']);
    expect(ids(told.lanes)).toEqual(['l-d-own']);
  });

  it('tells of the play after it only that there is one: its spot would give the gain away', () => {
    expect(told.plays[2]).toEqual(rows.play.parse({ id: uid('play-3'), gameId: uid('game-1'), position: 3 }));
    expect(told.parts[2]).toMatchObject({ runnerId: uid('runner-1'), gain: null });
  });

  it('tells the plays before it whole, and is the game itself for a play that is not in it', () => {
    expect(told.plays[0]).toEqual(game.plays[0]);
    expect(told.parts[0]).toEqual(game.parts[0]);
    expect(sealedGame(game, { ...seal, playId: uid('gone') }, 1)).toBe(game);
  });

  it('withholds every column of the result, and no column of the situation', () => {
    for (const column of ['gain', 'result', 'penaltyYards', 'note']) expect(isWithheld('play', column)).toBe(true);
    for (const column of ['contactAt', 'hitGap', 'fumble', 'clearedYards'])
      expect(isWithheld('part', column)).toBe(true);
    for (const column of ['down', 'toGo', 'spot', 'box']) expect(isWithheld('play', column)).toBe(false);
  });
});
