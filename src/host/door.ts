import { isCallName, calls, type CallInput, type CallName, type CallOutput } from '../contract/calls.ts';
import { faultOf, FaultError, type Fault } from '../contract/faults.ts';
import { dirname } from 'node:path';
import { Hono } from 'hono';
import { badInput } from './bad-input.ts';
import { eventHub } from './events.ts';
import { allowedPlace, browse } from './files/browse.ts';
import { findFile } from './files/find-file.ts';
import { filmKeeper } from './films/film-keeper.ts';
import { serveFile } from './films/ranges.ts';
import { issueDossier, renderDossier, type RenderedDossier } from './exports/issue-dossier.ts';
import type { Native } from './native.ts';
import { preferenceFile } from './preferences.ts';
import { startStudyWorker } from './study/client.ts';
import type { StudyCall } from './study/handlers.ts';
import { serveUi } from './ui-files.ts';

/** Calls that compute over a whole runner or class; everything else is short. */
const readingCalls: ReadonlySet<CallName> = new Set([
  'sheet.read',
  'dossier.read',
  'still.missing',
  'board.read',
  'board.rank',
  'board.results',
  'board.watchNext',
  'sideBySide.read',
  'secondLook.read',
  'secondLook.agreement',
]);
const isReading = (name: CallName): boolean => readingCalls.has(name);

export type HostOptions = {
  /** The built window: index.html and its assets. Null serves no window (the CLI). */
  readonly uiFolder: string | null;
  /** Folders searched for films that are not where the study says. */
  readonly filmFolders: readonly string[];
  /** Folders the file browser may show, links followed. */
  readonly browseRoots: readonly string[];
  readonly preferencesPath: string;
  readonly programVersion: string;
  readonly native: Native;
  readonly log: (line: string) => void;
  /** Opens every study for reading only and writes nothing (the CLI). */
  readonly readOnly?: boolean;
};

/** The door: everything a window or a command can ask, as one WHATWG fetch handler. */
export type Host = {
  door(request: Request): Promise<Response>;
  /** The same calls without HTTP, for the CLI: parsed in and out, faults thrown as FaultError. */
  call<Name extends CallName>(name: Name, input: CallInput<Name>): Promise<CallOutput<Name>>;
  /** An issued dossier's bytes; null when there is none of that kind. */
  issuedFile(id: string, kind: 'html' | 'pdf'): Promise<Uint8Array | null>;
  /** A runner's dossier as it stands now, rendered and not kept. */
  renderDossier(input: Omit<CallInput<'dossier.issue'>, 'pdf'>): Promise<RenderedDossier>;
  close(): Promise<void>;
};

const mostBodyBytes = 64 * 1024 * 1024;

const statusOf = (fault: Fault): 200 | 400 | 403 | 404 | 413 | 500 => {
  switch (fault.fault) {
    case 'bad-input':
      return 400;
    case 'forbidden':
      return 403;
    case 'not-found':
      return 404;
    case 'too-large':
      return 413;
    case 'internal':
      return 500;
    default:
      return 200;
  }
};

/** Opens the host. Never throws for trouble of the world: that comes back through the door as a fault. */
export function openHost(options: HostOptions): Host {
  const study = startStudyWorker(
    {
      filmFolders: options.filmFolders,
      programVersion: options.programVersion,
      readOnly: options.readOnly ?? false,
    },
    options.log,
  );
  // Long readings have a thread and a connection of their own, so that no change waits for a grade.
  const reading = startStudyWorker(
    { filmFolders: options.filmFolders, programVersion: options.programVersion, readOnly: true },
    options.log,
  );
  const events = eventHub();
  let warming: ReturnType<typeof setTimeout> | null = null;
  const warmSoon = (): void => {
    if (warming !== null) clearTimeout(warming);
    warming = setTimeout(() => void reading.call('inner.warm', null).catch(() => undefined), 250);
    warming.unref();
  };
  const preferences = preferenceFile(options.preferencesPath);
  const roots = [...options.browseRoots];
  const films = filmKeeper({ study, events, roots, filmFolders: options.filmFolders });

  type OuterCall = Exclude<CallName, StudyCall>;
  const outer: { [Name in OuterCall]: (input: CallInput<Name>, signal: AbortSignal) => Promise<CallOutput<Name>> } = {
    'files.browse': async (input) => browse(input, roots),
    async 'files.pick'(input) {
      const picked = await options.native.pickFiles?.(input);
      if (picked === undefined) return null;
      // What a person chose in the system's own dialog is allowed, with what lies beside it.
      for (const path of picked) if (!roots.includes(dirname(path))) roots.push(dirname(path));
      return [...picked];
    },
    'files.find': async ({ name, bytes }) => findFile(name, bytes, roots),
    'film.add': (input, signal) => films.add(input, signal),
    'film.relink': (input) => films.relink(input),
    'dossier.issue': (input) => issueDossier(input, { study, native: options.native, now: Date.now }),
    'preferences.read': async () => preferences.read(),
    async 'preferences.write'({ set }) {
      preferences.write(set);
      return {};
    },
  };
  const isOuter = (name: CallName): name is OuterCall => Object.hasOwn(outer, name);

  async function answer(name: CallName, input: unknown, signal: AbortSignal): Promise<unknown> {
    const parsed = calls[name].input.safeParse(input);
    if (!parsed.success) throw new FaultError(badInput(`what ${name} takes`, parsed.error, input));
    const value = isOuter(name)
      ? await outer[name](parsed.data as never, signal)
      : await (isReading(name) ? reading : study).call(name, parsed.data as never);
    if (name.startsWith('change.') && name !== 'change.history' && name !== 'change.state') {
      const { entry, touched } = value as CallOutput<'change.make'>;
      events.tell({ event: 'changed', entry, touched });
      warmSoon();
    }
    if (name === 'study.open' || name === 'study.create') {
      films.forget();
      await reading.call('study.open', { path: (value as CallOutput<'study.open'>).path });
      warmSoon();
      events.tell({ event: 'study', path: (value as CallOutput<'study.open'>).path });
    }
    return calls[name].output.parse(value);
  }

  function faultFrom(cause: unknown): Fault {
    if (cause instanceof FaultError) return cause.fault;
    const stack = cause instanceof Error ? (cause.stack ?? cause.message) : String(cause);
    options.log(stack);
    const says = (cause instanceof Error ? cause.message : String(cause)).slice(0, 300);
    return faultOf(
      'internal',
      `Creasebook made a mistake: ${says}.`,
      'Nothing was half-written. Please keep the log and tell us.',
    );
  }
  const refused = (cause: unknown): Response => {
    const fault = faultFrom(cause);
    return Response.json({ ok: false, fault }, { status: statusOf(fault) });
  };
  /** A file that can't be given is never a success, whatever kept it away: a player reads the status alone. */
  const file = async (give: () => Promise<Response>): Promise<Response> => {
    try {
      return await give();
    } catch (cause) {
      const fault = faultFrom(cause);
      const status = statusOf(fault);
      return Response.json({ ok: false, fault }, { status: status === 200 ? 404 : status });
    }
  };

  async function readBody(request: Request): Promise<unknown> {
    const chunks: Uint8Array[] = [];
    let bytes = 0;
    if (request.body !== null) {
      for await (const chunk of request.body as unknown as AsyncIterable<Uint8Array>) {
        bytes += chunk.byteLength;
        if (bytes > mostBodyBytes) {
          throw new FaultError(
            faultOf(
              'too-large',
              `A call may carry ${mostBodyBytes} bytes; this one carries more.`,
              'Send less at once.',
            ),
          );
        }
        chunks.push(chunk);
      }
    }
    try {
      return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(Buffer.concat(chunks)));
    } catch {
      throw new FaultError(faultOf('bad-input', 'A call carries JSON; this one does not.', 'Nothing was changed.'));
    }
  }

  const app = new Hono();
  app.onError((cause) => refused(cause));
  app.notFound(() =>
    refused(new FaultError(faultOf('not-found', 'There is nothing at this address.', 'Open the window at its start.'))),
  );
  app.post('/call/:name', async (context) => {
    const name = context.req.param('name');
    if (!isCallName(name)) {
      return refused(
        new FaultError(
          faultOf('not-found', `There is no call named ${name.slice(0, 60)}.`, 'See docs for the table of calls.'),
        ),
      );
    }
    const body = await readBody(context.req.raw);
    // A shell may open any study its user names; what comes through the door stays in the folders he allowed.
    if (name === 'study.open' || name === 'study.create') {
      const named = calls[name].input.safeParse(body);
      if (named.success) allowedPlace(named.data.path, roots);
    }
    const value = await answer(name, body, context.req.raw.signal);
    return Response.json({ ok: true, value }, { headers: { 'cache-control': 'no-store' } });
  });
  app.on(['GET', 'HEAD'], '/film/:id', (context) =>
    file(async () => serveFile(await films.path(context.req.param('id')), context.req.raw)),
  );
  app.get('/frames/:id', (context) =>
    file(async () => {
      const bytes = await films.table(context.req.param('id'), context.req.raw.signal);
      return new Response(new Uint8Array(bytes), {
        headers: { 'content-type': 'application/octet-stream', 'cache-control': 'no-cache' },
      });
    }),
  );
  app.get('/still/:id', async (context) => {
    const jpeg = await study.call('inner.still', { stillId: context.req.param('id') });
    if (jpeg === null) return context.notFound();
    return new Response(new Uint8Array(jpeg), {
      headers: { 'content-type': 'image/jpeg', 'cache-control': 'private, max-age=31536000, immutable' },
    });
  });
  app.get('/issued/:id/:kind{dossier.html|dossier.pdf}', async (context) => {
    const kind = context.req.param('kind') === 'dossier.pdf' ? 'pdf' : 'html';
    const bytes = await study.call('inner.issuedFile', { id: context.req.param('id'), kind });
    if (bytes === null) return context.notFound();
    return new Response(new Uint8Array(bytes), {
      headers: {
        'content-type': kind === 'pdf' ? 'application/pdf' : 'text/html; charset=utf-8',
        'content-disposition': 'inline; filename="dossier.' + kind + '"',
        'x-content-type-options': 'nosniff',
      },
    });
  });
  app.get('/events', (context) => events.listen(context.req.raw));
  const { uiFolder } = options;
  if (uiFolder !== null) app.get('*', (context) => serveUi(uiFolder, new URL(context.req.url).pathname));

  return {
    door: async (request) => app.fetch(request),
    call: async (name, input) => (await answer(name, input, new AbortController().signal)) as CallOutput<typeof name>,
    renderDossier: (input) => renderDossier(study, input),
    issuedFile: (id, kind) => study.call('inner.issuedFile', { id, kind }),
    async close() {
      events.close();
      if (warming !== null) clearTimeout(warming);
      await reading.close();
      await study.close();
    },
  };
}
