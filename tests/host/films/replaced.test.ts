import { mkdtempSync, realpathSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { add } from '../../../src/contract/changes.ts';
import { fingerprintOf } from '../../../src/film/table/fingerprint.ts';
import { openHost } from '../../../src/host/door.ts';

const folder = realpathSync(mkdtempSync(join(tmpdir(), 'creasebook-replaced-')));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('a film whose file was replaced by another of the same size is not given out under its name', async () => {
  const first = Buffer.alloc(5000, 1);
  const path = join(folder, 'film.mp4');
  writeFileSync(path, first);
  const host = openHost({
    uiFolder: null,
    filmFolders: [],
    browseRoots: [folder],
    preferencesPath: join(folder, 'preferences.json'),
    programVersion: '0.0.0',
    native: {},
    log: () => undefined,
  });
  await host.call('study.create', { path: join(folder, 'Season.creasebook'), evaluatorName: 'Dana Quill' });
  const id = '0190b3a0-0000-7000-8000-000000000001';
  const fingerprint = await fingerprintOf({
    size: first.length,
    read: async (start, end) => first.subarray(start, end),
  });
  const row = {
    id,
    name: 'film.mp4',
    path,
    fingerprint,
    bytes: first.length,
    frames: 1,
    width: 640,
    height: 360,
    seconds: 1,
    rate: 30,
    codec: 'avc',
    angle: 'sideline',
  } as const;
  await host.call('change.make', { by: null, label: 'A film', steps: [add('film', row)] });
  const ask = (): Promise<Response> => host.door(new Request(`http://127.0.0.1/film/${id}`));
  const whole = await ask();
  expect(whole.status).toBe(200);
  await whole.arrayBuffer();
  writeFileSync(path, Buffer.alloc(5000, 2));
  utimesSync(path, new Date(2_000_000_000_000), new Date(2_000_000_000_000));
  const refused = await ask();
  expect(refused.status).toBe(404);
  expect(await refused.json()).toMatchObject({ ok: false, fault: { fault: 'film-changed' } });
  await host.close();
});
