/** The loopback shell over real sockets: who gets in, and that what the door says arrives whole. */
import { fingerprintOf } from '../../src/film/table/fingerprint.ts';
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { networkInterfaces, tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { add } from '../../src/contract/changes.ts';
import { openHost, type Host } from '../../src/host/door.ts';
import { serveLoopback, type Served } from '../../src/loopback/serve.ts';
import { ask, type Answer } from './ask.ts';

const filmId = '0198f000-0000-7000-8000-000000000001';
// Any bytes will do for ranges: byte n is n modulo 251, so that each place is recognised.
const film = Buffer.from(Array.from({ length: 700_001 }, (_, at) => at % 251));

let folder: string;
let host: Host;
let served: Served;
let cookie: string;
const logged: string[] = [];

const at = (path: string): string => `http://127.0.0.1:${served.port}${path}`;
const get = (path: string, headers: Record<string, string> = {}, method = 'GET'): Promise<Answer> =>
  ask(at(path), { method, headers: { cookie, ...headers } });
const post = (name: string, input: unknown, headers: Record<string, string> = {}): Promise<Answer> =>
  ask(at(`/call/${name}`), { method: 'POST', headers: { cookie, ...headers }, body: JSON.stringify(input) });

beforeAll(async () => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), 'creasebook-loopback-')));
  const ui = join(folder, 'ui');
  mkdirSync(join(ui, 'assets'), { recursive: true });
  writeFileSync(
    join(ui, 'index.html'),
    '<meta property="csp-nonce" content="NONCE-OF-THIS-ANSWER" /><div id="window"></div>',
  );
  writeFileSync(join(ui, 'assets', 'main-1.js'), 'export {};');
  writeFileSync(join(folder, 'secret.txt'), 'not for the window');
  writeFileSync(join(folder, 'film.mp4'), film);
  host = openHost({
    uiFolder: ui,
    filmFolders: [],
    browseRoots: [folder],
    preferencesPath: join(folder, 'preferences.json'),
    programVersion: '0.0.0',
    native: {},
    log: (line) => logged.push(line),
  });
  await host.call('study.create', { path: join(folder, 'Season.creasebook'), evaluatorName: 'Dana Quill' });
  const row = {
    id: filmId,
    name: 'film.mp4',
    path: join(folder, 'film.mp4'),
    fingerprint: await fingerprintOf({ size: film.length, read: async (start, end) => film.subarray(start, end) }),
    bytes: film.length,
    frames: 1,
    width: 640,
    height: 360,
    seconds: 1,
    rate: 30,
    codec: 'avc',
    angle: 'sideline',
  } as const;
  await host.call('change.make', { by: null, label: 'A film', steps: [add('film', row)] });
  served = await serveLoopback(host, 0);
  const opened = await ask(served.address);
  cookie = opened.headers['set-cookie']?.[0]?.split(';')[0] ?? '';
});

afterAll(async () => {
  await served.close();
  await host.close();
  rmSync(folder, { recursive: true, force: true });
  expect(logged).toEqual([]);
});

describe('the key', () => {
  test('in the first address becomes a strict cookie no script can read, and leaves the address', async () => {
    const opened = await ask(served.address);
    expect(opened.status).toBe(303);
    expect(opened.headers.location).toBe('/');
    expect(opened.headers['set-cookie']?.[0]).toMatch(/^creasebook-\d+=[\w-]{32}; HttpOnly; SameSite=Strict; Path=\/$/);
    expect(opened.headers['cache-control']).toBe('no-store');
  });

  test('keeps the rest of the address it came with', async () => {
    const key = new URL(served.address).searchParams.get('key') ?? '';
    expect((await ask(at(`/sheet?runner=7&key=${key}`))).headers.location).toBe('/sheet?runner=7');
  });

  test.each(['/', '/call/study.info', `/film/${filmId}`, '/events', '/assets/main-1.js'])(
    'is needed for %s, and nothing of it is told without',
    async (path) => {
      for (const headers of [{}, { cookie: `creasebook-${served.port}=${'A'.repeat(32)}` }, { cookie: 'other=1' }]) {
        const refused = await ask(at(path), { headers, method: path.startsWith('/call') ? 'POST' : 'GET' });
        expect(refused.status).toBe(403);
        expect(refused.body.toString()).toBe(
          'This window needs the address that Creasebook printed when it started.\n',
        );
      }
      expect((await ask(at(`${path}?key=${'A'.repeat(32)}`))).status).toBe(403);
    },
  );

  test('is another one at each start', async () => {
    const other = await serveLoopback(host, 0);
    expect(new URL(other.address).searchParams.get('key')).not.toBe(new URL(served.address).searchParams.get('key'));
    const refused = await ask(`http://127.0.0.1:${other.port}/`, { headers: { cookie } });
    expect(refused.status).toBe(403);
    await other.close();
  });
});

describe('another page', () => {
  test.each(['example.org', 'example.org:80', '127.0.0.1', '127.0.0.1:1', 'localhost.example.org', '[::1]:80'])(
    'whose name was pointed at this machine (Host %s) is refused',
    async (name) => {
      expect((await get('/', { host: name })).status).toBe(403);
    },
  );

  test('may use the name localhost', async () => {
    expect((await get('/', { host: `localhost:${served.port}` })).status).toBe(200);
  });

  test.each(['https://example.org', 'null', 'http://127.0.0.1:1', 'file://'])(
    'of origin %s is refused',
    async (origin) => {
      expect((await post('study.info', {}, { origin })).status).toBe(403);
    },
  );

  test('is refused by what the browser says of its site', async () => {
    for (const site of ['cross-site', 'same-site']) {
      expect((await get('/assets/main-1.js', { 'sec-fetch-site': site, 'sec-fetch-mode': 'no-cors' })).status).toBe(
        403,
      );
    }
    expect((await get('/assets/main-1.js', { 'sec-fetch-site': 'same-origin' })).status).toBe(200);
  });

  test('can not frame the window', async () => {
    expect((await get('/')).headers['content-security-policy']).toContain("frame-ancestors 'none'");
  });
});

const reached = (address: string): Promise<boolean> =>
  new Promise((resolve) => {
    const socket = connect({ host: address, port: served.port, timeout: 2000 });
    const end = (yes: boolean): void => {
      socket.destroy();
      resolve(yes);
    };
    socket.on('connect', () => end(true));
    socket.on('error', () => end(false));
    socket.on('timeout', () => end(false));
  });

test('the server listens on this machine only', async () => {
  const outward = Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .find(({ family, internal }) => family === 'IPv4' && !internal);
  expect(await reached('127.0.0.1')).toBe(true);
  if (outward !== undefined) expect(await reached(outward.address)).toBe(false);
});

const nonceOf = ({ headers }: Answer): string =>
  /'nonce-([^']+)'/.exec(String(headers['content-security-policy']))?.[1] ?? '';

describe('the window', () => {
  test('is served with a strict policy whose nonce is in the page and never the same', async () => {
    const [one, two] = [await get('/'), await get('/')];
    expect(nonceOf(one)).not.toBe(nonceOf(two));
    expect(one.body.toString()).toContain(`content="${nonceOf(one)}"`);
    const policy = String(one.headers['content-security-policy']);
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self'");
    expect(policy).not.toMatch(/unsafe-inline|'unsafe-eval'|https?:|\*/);
    expect(one.headers).toMatchObject({
      'content-type': 'text/html; charset=utf-8',
      'cache-control': 'no-store',
      'x-content-type-options': 'nosniff',
      'cross-origin-resource-policy': 'same-origin',
    });
  });

  test('has its assets kept for long, and any address without an ending is the window', async () => {
    const asset = await get('/assets/main-1.js');
    expect(asset.body.toString()).toBe('export {};');
    expect(asset.headers['cache-control']).toContain('immutable');
    expect((await get('/sheet')).body.toString()).toContain('id="window"');
  });

  test.each([
    '/../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/assets/..%5c..%5csecret.txt',
    '/assets/%00.js',
    '/%ff.js',
  ])('gives no file from elsewhere (%s)', async (path) => {
    const answer = await new Promise<string>((resolve, reject) => {
      // A raw socket: every client tidies such paths before sending them.
      const socket = connect(served.port, '127.0.0.1', () =>
        socket.end(
          `GET ${path} HTTP/1.1\r\nHost: 127.0.0.1:${served.port}\r\nCookie: ${cookie}\r\nConnection: close\r\n\r\n`,
        ),
      );
      let words = '';
      socket.on('data', (chunk) => (words += chunk.toString()));
      socket.on('error', reject);
      socket.on('close', () => resolve(words));
    });
    expect(answer).not.toContain('not for the window');
    expect(answer).toMatch(/^HTTP\/1\.1 4\d\d/);
  });
});

describe('a call', () => {
  test('goes in and comes out as the contract says', async () => {
    const answer = await post('study.info', {});
    expect(answer.status).toBe(200);
    expect(JSON.parse(answer.body.toString())).toMatchObject({
      ok: true,
      value: { name: expect.any(String), readOnly: false },
    });
  });

  test('of no name in the table, or an inherited one, is not found', async () => {
    for (const name of ['nothing', 'toString', '__proto__', 'constructor']) {
      const answer = await post(name, {});
      expect(answer.status).toBe(404);
      expect(JSON.parse(answer.body.toString())).toMatchObject({ ok: false, fault: { fault: 'not-found' } });
    }
  });

  test.each(['', '{', 'null', '[]', '{"more":1}'])('that carries %j is a fault, not a failure', async (body) => {
    const answer = await ask(at('/call/study.info'), { method: 'POST', headers: { cookie }, body });
    expect(answer.status).toBe(400);
    expect(JSON.parse(answer.body.toString())).toMatchObject({ ok: false, fault: { fault: 'bad-input' } });
  });
});

describe('a film', () => {
  test('comes whole without a range', async () => {
    const whole = await get(`/film/${filmId}`);
    expect(whole.status).toBe(200);
    expect(whole.headers).toMatchObject({
      'accept-ranges': 'bytes',
      'content-length': `${film.length}`,
      'content-type': 'video/mp4',
    });
    expect(whole.body.equals(film)).toBe(true);
  });

  // RFC 9110, section 14.1.2: first-last, first to the end, the last n; last is inclusive and cut to the end.
  test.each([
    ['bytes=0-0', 0, 0],
    ['bytes=100-199', 100, 199],
    ['bytes=700000-', 700_000, 700_000],
    ['bytes=-1', 700_000, 700_000],
    ['bytes=-999999999', 0, 700_000],
    ['bytes=699000-999999999', 699_000, 700_000],
  ])('in the range %s comes from byte %i to %i', async (range, start, end) => {
    const part = await get(`/film/${filmId}`, { range });
    expect(part.status).toBe(206);
    expect(part.headers['content-range']).toBe(`bytes ${start}-${end}/${film.length}`);
    expect(part.headers['content-length']).toBe(`${end - start + 1}`);
    expect(part.body.equals(film.subarray(start, end + 1))).toBe(true);
  });

  test.each(['bytes=700001-', 'bytes=5-4', 'bytes=-0', 'bytes=-'])('has no range %s', async (range) => {
    const none = await get(`/film/${filmId}`, { range });
    expect(none.status).toBe(416);
    expect(none.headers['content-range']).toBe(`bytes */${film.length}`);
    expect(none.body.length).toBe(0);
  });

  test.each(['bytes=0-1,5-6', 'frames=1-2', 'bytes=a-b'])(
    'comes whole for a range that is not understood (%s)',
    async (range) => {
      expect((await get(`/film/${filmId}`, { range })).status).toBe(200);
    },
  );

  test('tells its size to HEAD without sending it', async () => {
    const head = await get(`/film/${filmId}`, {}, 'HEAD');
    expect(head.status).toBe(200);
    expect(head.headers['content-length']).toBe(`${film.length}`);
    expect(head.body.length).toBe(0);
  });

  test('in any range has the bytes of that range', async () => {
    await fc.assert(
      fc.asyncProperty(fc.nat(film.length - 1), fc.nat(5000), async (start, more) => {
        const end = Math.min(start + more, film.length - 1);
        const part = await get(`/film/${filmId}`, { range: `bytes=${start}-${start + more}` });
        expect(part.status).toBe(206);
        expect(part.body.equals(film.subarray(start, end + 1))).toBe(true);
      }),
      { numRuns: 40 },
    );
  });

  test('that is broken off leaves the server answering', async () => {
    await new Promise<void>((resolve) => {
      const socket = connect(served.port, '127.0.0.1', () =>
        socket.write(`GET /film/${filmId} HTTP/1.1\r\nHost: 127.0.0.1:${served.port}\r\nCookie: ${cookie}\r\n\r\n`),
      );
      socket.once('data', () => socket.destroy());
      socket.on('close', () => resolve());
    });
    expect((await get(`/film/${filmId}`, { range: 'bytes=0-9' })).status).toBe(206);
  });

  test('of no such id is not found', async () => {
    expect((await get('/film/nothing')).status).toBe(404);
  });
});

/** Opens the events and collects what comes until the stream ends. */
async function listenTo(address: string): Promise<{ words: () => string; ended: Promise<void>; stop: () => void }> {
  const stopping = new AbortController();
  const response = await fetch(new URL('/events', address), { headers: { cookie }, signal: stopping.signal });
  expect(response.headers.get('content-type')).toBe('text/event-stream');
  let words = '';
  const read = async (): Promise<void> => {
    const decoder = new TextDecoder();
    for await (const chunk of response.body ?? []) words += decoder.decode(chunk, { stream: true });
  };
  return { words: () => words, ended: read().catch(() => undefined), stop: () => stopping.abort() };
}

describe('the events', () => {
  test('tell every window that something changed', async () => {
    const windows = [await listenTo(served.address), await listenTo(served.address)];
    await expect.poll(() => windows.every(({ words }) => words().startsWith(': here'))).toBe(true);
    const team = {
      id: '0198f000-0000-7000-8000-000000000002',
      name: 'Harrow Tech',
      defenceDelta: null,
      defenceCarries: null,
    };
    const made = await post('change.make', {
      by: null,
      label: 'A team',
      steps: [{ do: 'add', table: 'team', row: team }],
    });
    expect(JSON.parse(made.body.toString())).toMatchObject({ ok: true });
    await expect.poll(() => windows.every(({ words }) => words().includes('"event":"changed"'))).toBe(true);
    for (const { stop } of windows) stop();
    await Promise.all(windows.map(({ ended }) => ended));
  });
});

describe('the end', () => {
  test('comes at once, with a window still listening, and frees the port', async () => {
    const short = await serveLoopback(host, 0);
    const opened = await ask(short.address);
    const own = opened.headers['set-cookie']?.[0]?.split(';')[0] ?? '';
    const listening = fetch(`http://127.0.0.1:${short.port}/events`, { headers: { cookie: own } }).then((answer) =>
      answer.text(),
    );
    const ended = expect(listening).rejects.toThrow();
    await new Promise((resolve) => setTimeout(resolve, 100));
    const began = performance.now();
    await short.close();
    expect(performance.now() - began).toBeLessThan(2000);
    await ended;
    const again = await serveLoopback(host, short.port);
    expect(again.port).toBe(short.port);
    await again.close();
  });

  test('is not needed to hear that a port is taken', async () => {
    await expect(serveLoopback(host, served.port)).rejects.toThrow(/EADDRINUSE/);
  });
});
