import react from '@vitejs/plugin-react';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

const project = fileURLToPath(new URL('..', import.meta.url));

// `npm run dev` sets DOOR to the running door, so that the window is hot-reloaded and the calls are real.
const door = process.env['DOOR'];

export default defineConfig({
  root: `${project}src/ui`,
  base: '/',
  plugins: [react()],
  build: {
    outDir: `${project}dist/ui`,
    emptyOutDir: true,
    target: 'chrome130',
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 2500,
    modulePreload: { polyfill: false },
  },
  worker: { format: 'es' },
  ...(door === undefined
    ? {}
    : {
        server: {
          proxy: Object.fromEntries(
            ['/call', '/film', '/frames', '/still', '/issued', '/events'].map((path) => [path, door]),
          ),
        },
      }),
});
