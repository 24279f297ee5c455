/**
 * Makes the demo study from demo/season.json through the program's own change calls: `node scripts/demo/make-study.ts`.
 * Row ids follow from the season's own ids, so the same season gives the same rows; only the journal's ids differ.
 */
import { readFileSync, rmSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { v5 as uuidv5 } from 'uuid';
import { add, type ChangeStep } from '../../src/contract/changes.ts';
import { rubricBody } from '../../src/contract/rows.ts';
import { defaultRubric } from '../../src/core/rubric/default-rubric.ts';
import { fingerprintOf } from '../../src/film/table/fingerprint.ts';
import { encodeFrameTable } from '../../src/film/table/frame-table-bytes.ts';
import { frameCount, type FrameTable } from '../../src/film/table/frame-table.ts';
import { isFilmFault, readFrameTable } from '../../src/film/table/read-frame-table.ts';
import { fileBytes } from '../../src/host/films/file-bytes.ts';
import { openStudy } from '../../src/host/study/study.ts';
import { partSteps } from './study/part-steps.ts';
import { playRow } from './study/play-row.ts';
import type { Season } from './study/season.ts';

const demo = resolve(import.meta.dirname, '..', '..', 'demo');
const namespace = '6f1a4c1e-52b7-4a7a-9f0e-2f6f0c8f7d11';
const idOf = (kind: string, name: string): string => uuidv5(`${kind} ${name}`, namespace);
const season = JSON.parse(readFileSync(join(demo, 'season.json'), 'utf8')) as Season;
const path = join(demo, 'demo.creasebook');
for (const ending of ['', '-wal', '-shm']) rmSync(path + ending, { force: true });

// The study's clock stands at the evening after the last game, so that the same season gives the same times.
const lastGame =
  season.games
    .map(({ date }) => date)
    .toSorted()
    .at(-1) ?? '2025-10-04';
const now = Date.parse(`${lastGame}T20:00:00Z`) + 40 * 86_400_000;
const study = openStudy(path, { create: true, now: () => now });

const make = (label: string, steps: readonly ChangeStep[], by: string | null = null): void => {
  study.make({ by: by === null ? null : idOf('evaluator', by), label, steps: [...steps] });
};

make(
  'Evaluators',
  season.evaluators.map(({ id, name }) => add('evaluator', { id: idOf('evaluator', id), name })),
);
const rubricId = idOf('rubric', 'default 1');
make('Default rubric', [
  add('rubricVersion', {
    id: rubricId,
    number: 1,
    name: 'Default rubric',
    body: rubricBody.parse(defaultRubric),
    madeAt: Date.parse('2025-09-01T09:00:00Z'),
  }),
]);
make('Teams and runners', [
  ...season.teams.map(({ id, name }) => add('team', { id: idOf('team', id), name })),
  ...season.runners.map((runner) =>
    add('runner', {
      id: idOf('runner', runner.id),
      name: runner.name,
      teamId: idOf('team', runner.teamId),
      jersey: runner.jersey,
      position: 'running back',
      classYear: runner.classYear,
      heightInches: runner.heightInches,
      weightPounds: runner.weightPounds,
    }),
  ),
]);
make(
  'Games and official lines',
  season.games.flatMap((game) => [
    add('game', {
      id: idOf('game', game.id),
      season: game.season,
      week: game.week,
      date: game.date,
      homeTeamId: idOf('team', game.homeTeamId),
      awayTeamId: idOf('team', game.awayTeamId),
      note: game.note,
    }),
    ...game.officialLines.map((line) =>
      add('officialLine', {
        id: idOf('official line', `${game.id} ${line.runnerId}`),
        gameId: idOf('game', game.id),
        runnerId: idOf('runner', line.runnerId),
        attempts: line.attempts,
        yards: line.yards,
        snaps: line.snaps,
        source: 'the game’s official book (invented)',
      }),
    ),
  ]),
);

const tables = new Map<string, FrameTable>();
for (const film of season.films) {
  const file = join(demo, film.file);
  const bytes = await fileBytes(file);
  const table = await readFrameTable(bytes);
  if (isFilmFault(table)) throw new Error(`${film.file}: ${table.says}`);
  if (frameCount(table) !== film.frameCount)
    throw new Error(`${film.file} has ${frameCount(table)} frames, the season says ${film.frameCount}`);
  const fingerprint = await fingerprintOf(bytes);
  await bytes.close();
  tables.set(film.id, table);
  make(`Add the film ${film.id}`, [
    add('film', {
      id: idOf('film', film.id),
      name: film.file.split('/').at(-1) ?? film.id,
      path: film.file,
      fingerprint,
      bytes: statSync(file).size,
      frames: frameCount(table),
      width: table.displayWidth,
      height: table.displayHeight,
      seconds: table.duration,
      rate: table.rate.frames / table.rate.seconds,
      codec: table.codec,
      angle: film.angle,
    }),
  ]);
  study.database
    .prepare('INSERT INTO frame_table (fingerprint, bytes) VALUES (?, ?)')
    .run(fingerprint, encodeFrameTable(table));
}

const timeOf = (filmId: string, frame: number): number => tables.get(filmId)?.times[frame] ?? 0;
for (const play of season.plays) {
  make(
    `Cut and chart play ${play.number}`,
    [
      add('play', playRow(play, idOf)),
      ...play.spans.map((span, index) =>
        add('span', {
          id: idOf('span', `${play.id} ${index}`),
          playId: idOf('play', play.id),
          filmId: idOf('film', span.filmId),
          angle: span.angle,
          kind: span.kind,
          inFrame: span.inFrame,
          inTime: timeOf(span.filmId, span.inFrame),
          outFrame: span.outFrame,
          outTime: timeOf(span.filmId, span.outFrame),
          // The season gives the speed shown; the study keeps film seconds a real second.
          timeScale: 1 / span.timeScale,
          clearness: play.comeBack ? 'partial' : 'clear',
        }),
      ),
    ],
    'amari',
  );
  for (const { by, label, steps } of partSteps(play, { idOf, timeOf, rubricId }))
    if (steps.length > 0) make(label, steps, by);
}

for (const verdict of season.verdicts) {
  const partIds = (plays: readonly string[]): string[] => plays.map((id) => idOf('part', `${id} ${verdict.runnerId}`));
  make(
    `Write up ${verdict.runnerId}`,
    [
      add('writeup', {
        id: idOf('writeup', `${verdict.runnerId} ${verdict.evaluatorId}`),
        runnerId: idOf('runner', verdict.runnerId),
        evaluatorId: idOf('evaluator', verdict.evaluatorId),
        role: verdict.role ?? null,
        fit: verdict.fit ?? null,
        change: verdict.wouldChange ?? null,
        verdict: verdict.sentences.map(({ text, citesFor, citesAgainst }) => ({
          text,
          cites: partIds(citesFor),
          against: partIds(citesAgainst),
        })),
      }),
    ],
    verdict.evaluatorId,
  );
}

// What a newcomer sees first: a patient carry, well marked, with lanes and chalk.
const shown = season.plays.find(({ id }) => id === 'harlan-ridge-at-coldwater-04') ?? season.plays[0];
if (shown !== undefined) {
  make('What the demo opens on', [
    add('setting', {
      id: 'opensOn',
      value: {
        room: 'stage',
        evaluatorId: idOf('evaluator', 'amari'),
        gameId: idOf('game', shown.gameId),
        playId: idOf('play', shown.id),
        runnerId: idOf('runner', shown.parts[0]?.runnerId ?? 'okafor-lyle'),
        showing: { spanId: idOf('span', `${shown.id} 0`), frame: shown.spans[0]?.moments['decision'] ?? null },
      },
    }),
  ]);
}

study.database.pragma('wal_checkpoint(TRUNCATE)');
study.database.pragma('journal_mode = DELETE');
study.database.exec('VACUUM');
const plays = study.rows.all('play').length;
const marks = study.rows.all('mark').length;
study.close();
console.log(`demo.creasebook: ${plays} plays, ${marks} marks, ${Math.round(statSync(path).size / 1024)} kB`);
