import { describe, expect, test } from 'vitest';
import { planFilm } from '../../scripts/demo/film-plan.ts';
import { GAMES } from '../../scripts/demo/season/games.ts';
import { seasonJson } from '../../scripts/demo/season/season-json.ts';
import { playGame } from '../../scripts/demo/season/series.ts';
import { filmTruth } from '../../scripts/demo/truth.ts';
import { carriesOf, readSeason, readTruth } from './read-demo.ts';

const season = readSeason();
const carries = carriesOf(season);
const ORDER = ['snap', 'exchange', 'first read', 'press', 'decision', 'plant', 'cut', 'first contact', 'down'];

const mean = (runnerId: string, trait: string): number => {
  const values = carries.flatMap(({ part }) =>
    part.runnerId === runnerId
      ? part.marks.flatMap((mark) => (mark.trait === trait && mark.value !== undefined ? [mark.value] : []))
      : [],
  );
  return values.reduce((sum, value) => sum + value, 0) / values.length;
};

describe('the demo season', () => {
  test('has at least 36 carries by three runners over two games, every concept among them', () => {
    expect(carries.length).toBeGreaterThanOrEqual(36);
    expect(new Set(season.plays.map((play) => play.gameId)).size).toBe(2);
    const concepts = new Set(carries.map(({ play }) => play.concept));
    for (const concept of ['inside zone', 'outside zone', 'power', 'counter', 'toss', 'draw'])
      expect(concepts).toContain(concept);
    const count = (runnerId: string): number => carries.filter(({ part }) => part.runnerId === runnerId).length;
    expect(season.runners.map((runner) => count(runner.id)).sort((a, b) => b - a)).toEqual([22, 17, 4]);
  });

  test('has the odd ones too: fumbles kept and lost, a penalty, a fake, protection, a route, goal line, third and short', () => {
    expect(carries.map(({ part }) => part.fumble)).toEqual(expect.arrayContaining(['kept', 'lost']));
    expect(carries.filter(({ play }) => play.penalty).map(({ part }) => part.countsInResults)).toEqual([false]);
    const kinds = season.plays.flatMap((play) => play.parts.map((part) => part.kind));
    expect(kinds).toEqual(expect.arrayContaining(['run', 'protect', 'fake', 'route']));
    expect(carries.some(({ play }) => play.spotYards >= 97 && play.boxCount === 9)).toBe(true);
    expect(carries.some(({ play }) => play.down === 3 && play.toGoYards <= 2)).toBe(true);
    expect(new Set(season.plays.map((play) => play.hash))).toEqual(new Set(['left', 'middle', 'right']));
  });

  test('spots, downs and clock follow from one play to the next', () => {
    season.plays.forEach((play, at) => {
      const before = season.plays[at - 1];
      expect(play.spotYards + play.gainYards).toBeLessThanOrEqual(100);
      expect(play.toGoYards).toBeLessThanOrEqual(100 - play.spotYards);
      if (!before || before.gameId !== play.gameId || before.series !== play.series) return;
      const moved = before.penalty ? -before.penalty.yards : before.gainYards;
      expect(play.spotYards, play.id).toBe(before.spotYards + moved);
      const made = before.toGoYards - moved <= 0;
      expect(play.down, play.id).toBe(made ? 1 : before.penalty ? before.down : before.down + 1);
      if (!made) expect(play.toGoYards, play.id).toBe(before.toGoYards - moved);
      expect(play.clockSeconds).toBeLessThan(before.clockSeconds);
    });
  });

  test('yards before and after contact add up to the gain, called back or not', () => {
    for (const { play, part } of carries) {
      const sum = (part.yardsBeforeContact ?? 0) + (part.yardsAfterContact ?? 0);
      expect(part.yardsAfterContact, play.id).toBeGreaterThanOrEqual(0);
      if (part.countsInResults) expect(sum, play.id).toBe(play.gainYards);
    }
  });

  test('official lines agree with a game logged whole, and exceed one logged in part', () => {
    for (const game of season.games) {
      for (const line of game.officialLines) {
        const own = carries.filter(
          ({ play, part }) => play.gameId === game.id && part.runnerId === line.runnerId && part.countsInResults,
        );
        const yards = own.reduce((sum, { play }) => sum + play.gainYards, 0);
        const touchdowns = own.filter(({ play }) => play.result === 'touchdown').length;
        const lost = own.filter(({ part }) => part.fumble === 'lost').length;
        if (game.loggedInPart) expect(line.attempts).toBeGreaterThan(own.length);
        else
          expect([line.attempts, line.yards, line.touchdowns, line.fumblesLost]).toEqual([
            own.length,
            yards,
            touchdowns,
            lost,
          ]);
      }
    }
    expect(season.games.map((game) => game.loggedInPart)).toEqual([false, true]);
  });

  test('moments stand in order inside their span, and feet alternate', () => {
    for (const play of season.plays) {
      expect(play.spans.length, play.id).toBeGreaterThan(0);
      for (const span of play.spans) {
        const frames = ORDER.flatMap((name) => (span.moments[name] === undefined ? [] : [span.moments[name]]));
        if (span.kind === 'live') expect(span.moments['snap'], play.id).toBeDefined();
        expect(frames, play.id).toEqual(frames.toSorted((a, b) => a - b));
        expect(new Set(frames).size).toBe(frames.length);
        for (const frame of [...frames, ...span.steps.map((step) => step.frame)]) {
          expect(frame).toBeGreaterThanOrEqual(span.inFrame);
          expect(frame).toBeLessThanOrEqual(span.outFrame);
        }
        span.steps.forEach((step, at) => {
          const before = span.steps[at - 1];
          if (before) expect(step.foot !== before.foot && step.frame > before.frame, play.id).toBe(true);
        });
      }
    }
  });

  test('the runner sets his feet at a cadence people run at', () => {
    // Sprint cadence 3.5-5.2 steps a second at full speed is common practice; a shuffle may fall to 2.5.
    for (const { play } of carries) {
      const span = play.spans.find((each) => each.kind === 'live');
      const first = span?.steps[0]?.frame ?? 0;
      const last = span?.steps.at(-1)?.frame ?? 0;
      const cadence = ((span?.steps.length ?? 1) - 1) / (((last - first) * 1001) / 30000);
      expect(cadence, play.id).toBeGreaterThan(2.5);
      expect(cadence, play.id).toBeLessThan(5.2);
    }
  });

  test('about half of the plays have an end-zone span too, and three are shown again at another speed', () => {
    const both = season.plays.filter((play) => new Set(play.spans.map((span) => span.angle)).size === 2);
    expect(both.length).toBe(24);
    const replays = season.plays.flatMap((play) => play.spans.filter((span) => span.kind === 'replay'));
    expect(replays.map((span) => span.timeScale).toSorted((a, b) => a - b)).toEqual([0.4, 0.5, 0.5]);
    expect(season.films.flatMap((film) => film.scoreCards).length).toBe(2);
  });

  test('all four mark states occur, two evaluators overlap, and second looks come 14 days later', () => {
    const marks = carries.flatMap(({ play, part }) => part.marks.map((mark) => ({ ...mark, playId: play.id })));
    expect(new Set(marks.map((mark) => mark.state))).toEqual(new Set(['shown', 'not shown', 'cannot be seen']));
    expect(carries.filter(({ part }) => part.marks.length === 0).length).toBeGreaterThan(0);
    for (const mark of marks) {
      expect(mark.value !== undefined, `${mark.playId} ${mark.trait}`).toBe(mark.state === 'shown');
      if (mark.value === undefined) continue;
      expect(mark.value * 2).toBe(Math.round(mark.value * 2));
      expect(mark.value).toBeGreaterThanOrEqual(1);
      expect(mark.value).toBeLessThanOrEqual(5);
    }
    const by = (evaluatorId: string, look: string): Set<string> =>
      new Set(
        marks.filter((mark) => mark.evaluatorId === evaluatorId && mark.look === look).map((mark) => mark.playId),
      );
    const second = by('osgaard', 'first');
    expect([...by('amari', 'first')].filter((id) => second.has(id)).length).toBeGreaterThanOrEqual(12);
    for (const id of by('amari', 'second')) {
      const day = (look: string): number =>
        Date.parse(
          marks.find((mark) => mark.playId === id && mark.look === look && mark.evaluatorId === 'amari')?.markedOn ??
            '',
        );
      expect((day('second') - day('first')) / 86_400_000).toBeGreaterThanOrEqual(14);
    }
  });

  test('the two runners differ: one patient with tidy feet, one fast with wasteful feet', () => {
    expect(mean('okafor-lyle', 'tempo') - mean('brask', 'tempo')).toBeGreaterThan(0.7);
    expect(mean('okafor-lyle', 'steps') - mean('brask', 'steps')).toBeGreaterThan(0.5);
    expect(mean('brask', 'pace') - mean('okafor-lyle', 'pace')).toBeGreaterThan(0.7);
  });

  test('each carry has one lane taken, estimates in order, and lanes that lie on the picture', () => {
    for (const { play, part } of carries) {
      const lanes = part.ledger?.lanes ?? [];
      expect(lanes.filter((lane) => lane.taken).length, play.id).toBe(1);
      expect(lanes.length).toBeGreaterThanOrEqual(2);
      for (const lane of lanes) {
        expect(lane.lowYards <= lane.likelyYards && lane.likelyYards <= lane.highYards, play.id).toBe(true);
        expect(lane.highYards).toBeLessThanOrEqual(100 - play.spotYards);
        for (const path of lane.paths) {
          for (const [x, y] of path.points) {
            expect(x > 0 && x < 1280 && y > 0 && y < 720, `${play.id} ${x} ${y}`).toBe(true);
          }
        }
      }
    }
  });

  test('verdict sentences cite carries of their own runner', () => {
    expect(season.verdicts.length).toBeGreaterThanOrEqual(3);
    for (const verdict of season.verdicts) {
      for (const sentence of verdict.sentences) {
        expect(sentence.citesFor.length).toBeGreaterThan(0);
        for (const id of [...sentence.citesFor, ...sentence.citesAgainst]) {
          expect(carries.find(({ play }) => play.id === id)?.part.runnerId, id).toBe(verdict.runnerId);
        }
      }
    }
  });

  test('the scripts make the committed season and truth again, to the letter', () => {
    const played = GAMES.map((game) => ({ game, plays: playGame(game) }));
    const plans = played.flatMap(({ game, plays }) =>
      (['sideline', 'end zone'] as const).map((angle) => planFilm(game, plays, angle)),
    );
    expect(JSON.parse(JSON.stringify(seasonJson(played, plans)))).toEqual(season);
    const [plan] = plans;
    const [film] = season.films;
    if (!plan || !film) throw new Error('a first film was wanted, got none');
    expect(JSON.parse(JSON.stringify(filmTruth(plan)))).toEqual(readTruth(film));
  }, 120_000);
});
