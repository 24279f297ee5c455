/**
 * `npm run dev`: the window hot-reloaded by vite, its calls answered by a real door. Changes to the window show at once;
 * changes to the host, core or contract need a new start. Arguments after `--` are the door's: --study FILE, --folder DIR.
 */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { setUp } from './set-up.mjs';
import { project } from './set-up-run.mjs';
import { runCommand, Trouble } from './set-up-trouble.mjs';

const doorPaths = ['/call', '/film', '/frames', '/still', '/issued', '/events'];
const windowPort = 5173;

/**
 * Starts the door on any free port and waits for its address.
 * @param {string} node
 * @param {NodeJS.ProcessEnv} env
 * @param {readonly string[]} args
 * @returns {Promise<{ address: URL, ended: Promise<number>, end: () => void }>}
 */
function startDoor(node, env, args) {
  const child = spawn(node, [join(project, 'build', 'src', 'loopback', 'main.js'), '--no-open', ...args], {
    env,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const ended = new Promise((/** @type {(code: number) => void} */ done) =>
    child.on('close', (code) => done(code ?? 1)),
  );
  return new Promise((resolve, reject) => {
    void ended.then((code) => reject(new Trouble(`The door did not start (code ${code}).`, 'See what it said above.')));
    child.stdout.on('data', (/** @type {Buffer} */ chunk) => {
      const found = /^Creasebook ready: (\S+)$/m.exec(chunk.toString());
      if (found?.[1] !== undefined) resolve({ address: new URL(found[1]), ended, end: () => child.kill('SIGTERM') });
      else process.stdout.write(chunk);
    });
  });
}

/** @param {readonly string[]} args */
async function dev(args) {
  const { node, env } = await setUp({ build: true, programs: ['chromium'] });
  const { address, ended, end } = await startDoor(node, env, args);
  const here = `http://127.0.0.1:${windowPort}`;
  const key = address.searchParams.get('key') ?? '';
  const { createServer } = await import(
    pathToFileURL(join(project, 'node_modules', 'vite', 'dist', 'node', 'index.js')).href
  );
  // The door's own checks stay: the key comes as its cookie, and only this window's origin is put in the door's place.
  /** @type {import('vite').ProxyOptions} */
  const proxy = {
    target: address.origin,
    changeOrigin: true,
    configure: (server) => {
      server.on('proxyReq', (request, incoming) => {
        if (incoming.headers.origin === here) request.setHeader('origin', address.origin);
      });
    },
  };
  /** @type {import('vite').Plugin} */
  const giveKey = {
    name: 'give-key',
    configureServer({ middlewares }) {
      middlewares.use((request, response, next) => {
        const url = new URL(request.url ?? '/', here);
        if (url.searchParams.get('key') !== key) {
          next();
          return;
        }
        const cookie = `creasebook-${address.port}=${key}; HttpOnly; SameSite=Strict; Path=/`;
        response.writeHead(303, { location: url.pathname, 'set-cookie': cookie }).end();
      });
    },
  };
  const server = await createServer({
    configFile: join(project, 'scripts', 'vite.config.ts'),
    plugins: [giveKey],
    server: {
      host: '127.0.0.1',
      port: windowPort,
      strictPort: true,
      proxy: Object.fromEntries(doorPaths.map((path) => [path, proxy])),
    },
  });
  await server.listen();
  console.log(`Creasebook ready: ${here}/?key=${key}`);
  for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM'])) process.on(signal, end);
  const code = await ended;
  await server.close();
  return code;
}

await runCommand(() => dev(process.argv.slice(2)));
