/**
 * The import table of the house as rules: a folder may import what its line names, and everything else is refused,
 * type-only imports too. tests/layers proves that each rule refuses. The same paths below tests/layers/wrong count as
 * the house, so that the wrong files there are judged by the very rules that judge the real ones.
 */
const house = '^(?:tests/layers/wrong/)?';
const folder = (path) => `${house}${path}/`;
const file = (path) => `${house}${path}$`;
const escaped = (name) => name.replaceAll('.', '\\.');
/** A package by its whole name, wherever npm put it, or its types. */
const packages = (...names) => names.map((name) => `node_modules/(?:@types/)?${escaped(name)}/`);

const core = folder('src/core');
const contract = folder('src/contract');
const table = folder('src/film/table');
const film = folder('src/film');
const pages = folder('src/pages');
const host = folder('src/host');
const kit = folder('src/ui/kit');
const link = folder('src/ui/link');
// Parts of the window that several rooms open: the file browser, the choice of a runner.
const shared = `${house}src/ui/(?:files|people)/`;
const noRoom = '(?:kit|link|files|people|frame|public)';

const window = packages(
  'react',
  'react-dom',
  'zustand',
  'video.js',
  'tinykeys',
  'perfect-freehand',
  'lucide-react',
  'radix-ui',
  'cmdk',
  '@tanstack/react-virtual',
);
const drawing = packages('d3-scale', 'd3-shape', 'd3-array');

/** One line of the table. `node` lets Node's own modules in. */
const line = (name, comment, from, may, { node = false, except } = {}) => ({
  name,
  comment,
  severity: 'error',
  from: { path: from, ...(except === undefined ? {} : { pathNot: except }) },
  to: { pathNot: may, ...(node ? { dependencyTypesNot: ['core'] } : {}) },
});

module.exports = {
  forbidden: [
    line('core', 'core is pure: itself and a few pure packages.', core, [
      core,
      ...packages('simple-statistics', 'ml-matrix', 'd3-array', 'linear-sum-assignment', 'pure-rand'),
      'node_modules/@stdlib/stats-base-dists-[^/]+/',
    ]),
    line('contract', 'The contract describes calls with zod and the words of core.', contract, [
      core,
      contract,
      ...packages('zod'),
    ]),
    line('film-table', 'The frame table is read beside the files too, so it stands without the rest of film.', table, [
      core,
      contract,
      table,
      ...packages('mediabunny'),
    ]),
    line(
      'film',
      'Media work knows core, the contract and mediabunny.',
      film,
      [core, contract, film, ...packages('mediabunny')],
      {
        except: table,
      },
    ),
    line('pages', 'Pages are drawn on screen and on paper alike: no window, no files.', pages, [
      core,
      contract,
      pages,
      ...packages('react'),
      ...drawing,
    ]),
    line(
      'host',
      'What runs beside the files, with the pages it prints and the frame table.',
      host,
      [
        core,
        contract,
        pages,
        host,
        table,
        ...packages('better-sqlite3', 'zod', 'hono', 'react', 'mediabunny', 'csv-parse', 'fflate', 'uuid'),
        'node_modules/(?:@types/)?react-dom/server[^/]*$',
        'node_modules/@fontsource/',
      ],
      { node: true },
    ),
    line('ui-kit', 'Widgets know nothing of the work.', kit, [
      core,
      kit,
      ...packages('react', 'react-dom', 'zustand', 'radix-ui', 'cmdk', 'lucide-react', '@tanstack/react-virtual'),
      'node_modules/@fontsource/',
    ]),
    line('ui-link', 'The way to the door and what it last said, frame tables among it.', link, [
      contract,
      table,
      link,
      ...packages('zod', 'zustand'),
    ]),
    line('ui-shared', 'What several rooms open knows the work, but no room.', shared, [
      core,
      contract,
      kit,
      link,
      shared,
      ...window,
    ]),
    line(
      'ui-room',
      'A room knows the shared folders and itself, never another room.',
      `${house}src/ui/(?!${noRoom}/)([^/]+)/`,
      [core, contract, film, pages, kit, link, shared, `${house}src/ui/$1/`, ...window, ...drawing],
    ),
    line('ui-frame', 'The frame enters each room by its index.', `${house}src/ui/(?:frame/|[^/]+\\.tsx?$)`, [
      core,
      contract,
      kit,
      link,
      shared,
      folder('src/ui/frame'),
      `${house}src/ui/[^/]+/index\\.tsx?$`,
      ...window,
      ...packages('zod', 'get-nonce'),
    ]),
    line(
      'loopback',
      'A shell: the host behind a socket of this machine.',
      folder('src/loopback'),
      [contract, host, folder('src/loopback'), ...packages('@hono/node-server')],
      { node: true },
    ),
    line(
      'cli',
      'A shell: the host behind commands.',
      folder('src/cli'),
      [contract, host, folder('src/cli'), ...packages('commander')],
      {
        node: true,
      },
    ),
    line(
      'electron',
      'A shell: the host behind a desktop window, by flag through the loopback server.',
      folder('electron'),
      [contract, host, folder('electron'), file('src/loopback/serve\\.ts'), ...packages('electron')],
      { node: true },
    ),
    {
      name: 'known-folder',
      comment: 'Code lives in a folder that the table names.',
      severity: 'error',
      from: { path: `${house}src/`, pathNot: `${house}src/(?:core|contract|film|pages|host|ui|loopback|cli)/` },
      to: {},
    },
    {
      name: 'no-circle',
      comment: 'What imports itself by way of others can be neither read nor tested alone.',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'declared-package',
      comment: 'A package that package.json does not name is there by luck.',
      severity: 'error',
      from: { path: `${house}(?:src|electron)/` },
      to: { dependencyTypes: ['npm-no-pkg', 'npm-unknown', 'unknown'] },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
    },
  },
};
