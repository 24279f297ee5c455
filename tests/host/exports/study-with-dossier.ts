/** A real study in a real file, written by changes through the study's own thread: one runner, one carry, marks, words and a still. */
import { readFileSync } from 'node:fs';
import { add, type ChangeStep } from '../../../src/contract/changes.ts';
import { startStudyWorker, type StudyClient } from '../../../src/host/study/client.ts';
import { uuid } from '../../pages/dossier-fixture.ts';

export const ids = {
  evaluator: uuid(1),
  home: uuid(2),
  away: uuid(3),
  runner: uuid(4),
  game: uuid(5),
  film: uuid(6),
  writeup: uuid(7),
} as const;
const carries = 4;

function rowsOfStudy(filmPath: string): ChangeStep[] {
  const plays = Array.from({ length: carries }, (_, at) => {
    const [play, part, span] = [uuid(100 + at), uuid(200 + at), uuid(300 + at)];
    return [
      add('play', {
        id: play,
        gameId: ids.game,
        position: at + 1,
        quarter: 1,
        offenceTeamId: ids.home,
        down: 1,
        toGo: 10,
        spot: 25 + at,
        gain: 3 + at,
      }),
      add('part', { id: part, playId: play, runnerId: ids.runner, gain: 3 + at }),
      add('span', {
        id: span,
        playId: play,
        filmId: ids.film,
        inFrame: at * 100,
        inTime: at * 4,
        outFrame: at * 100 + 90,
        outTime: at * 4 + 3.6,
      }),
    ];
  });
  return [
    add('evaluator', { id: ids.evaluator, name: 'R. Amari' }),
    add('team', { id: ids.home, name: 'Harlan Ridge' }),
    add('team', { id: ids.away, name: 'Coldwater' }),
    add('runner', { id: ids.runner, name: 'Dez Okafor-Lyle', teamId: ids.home }),
    add('game', { id: ids.game, season: 2026, week: 9, homeTeamId: ids.home, awayTeamId: ids.away }),
    add('film', {
      id: ids.film,
      name: 'coldwater.mp4',
      path: filmPath,
      fingerprint: 'f'.repeat(32),
      bytes: 1000,
      frames: 600,
      width: 640,
      height: 360,
      seconds: 24,
      rate: 25,
      codec: 'avc1',
    }),
    ...plays.flat(),
    add('chalk', {
      id: uuid(400),
      spanId: uuid(301),
      evaluatorId: ids.evaluator,
      fromFrame: 140,
      toFrame: 160,
      kind: 'arrow',
      points: [
        [10, 10],
        [90, 80],
      ],
      text: 'the crease',
    }),
    add('writeup', {
      id: ids.writeup,
      runnerId: ids.runner,
      evaluatorId: ids.evaluator,
      verdict: [{ text: 'Takes what is there.', cites: [uuid(201)], against: [uuid(200)] }],
      evidence: [
        { partId: uuid(201), spanId: uuid(301), frame: 150, caption: 'Waits, then one cut.' },
        { partId: uuid(202), spanId: uuid(302), frame: 250, caption: 'Late to the edge.', against: true },
      ],
    }),
  ];
}

/** Makes the study and keeps a still of its first evidence; the second's film is nowhere, so it stays without one. */
export async function studyWithDossier(path: string, log: (line: string) => void): Promise<StudyClient> {
  const study = startStudyWorker({ filmFolders: [], programVersion: '0.1.0' }, log);
  await study.call('study.create', { path, evaluatorName: 'R. Amari' });
  await study.call('change.make', { by: null, label: 'A study to print', steps: rowsOfStudy('nowhere/coldwater.mp4') });
  const jpeg = readFileSync(new URL('../../pages/stills/still-1.jpg', import.meta.url)).toString('base64');
  await study.call('still.put', { filmId: ids.film, frame: 150, jpegBase64: jpeg });
  return study;
}
