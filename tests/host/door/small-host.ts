/** A host on folders of the test's own, asked through its door as a window would. */
import { join } from 'node:path';
import { expect, onTestFinished } from 'vitest';
import type { Fault } from '../../../src/contract/faults.ts';
import { openHost, type Host, type HostOptions } from '../../../src/host/door.ts';
import { ownFolder } from '../small-study.ts';

export type SmallHost = {
  readonly host: Host;
  readonly folder: string;
  readonly study: string;
  /** What was logged: bugs. The test fails when there is anything it did not take out. */
  readonly log: string[];
  readonly send: (path: string, init?: RequestInit) => Promise<Response>;
  /** Posts a call with any body; the answer as it came. */
  readonly call: (
    name: string,
    input: unknown,
  ) => Promise<{ readonly status: number; readonly value?: unknown; readonly fault?: Fault }>;
};

/** Opens a host on a folder and, unless told otherwise, makes a study in it; `end` closes it and looks at its log. */
export async function openSmallHost(
  folder: string,
  options: Partial<HostOptions> = {},
  create = true,
): Promise<SmallHost & { readonly end: () => Promise<void> }> {
  const log: string[] = [];
  const host = openHost({
    uiFolder: null,
    filmFolders: [],
    browseRoots: [folder],
    preferencesPath: join(folder, 'preferences.json'),
    programVersion: '0.0.0',
    native: {},
    log: (line) => log.push(line),
    ...options,
  });
  const study = join(folder, 'class.creasebook');
  if (create) await host.call('study.create', { path: study, evaluatorName: 'Dana Quill' });
  const send = (path: string, init?: RequestInit) => host.door(new Request(`http://host${path}`, init));
  return {
    host,
    folder,
    study,
    log,
    send,
    async call(name, input) {
      const body = typeof input === 'string' ? input : JSON.stringify(input);
      const answer = await send(`/call/${name}`, { method: 'POST', body });
      const told = (await answer.json()) as { ok: boolean; value?: unknown; fault?: Fault };
      expect(told.ok).toBe(told.fault === undefined);
      return { status: answer.status, ...told };
    },
    async end() {
      await host.close();
      expect(log).toEqual([]);
    },
  };
}

/** A small host in a folder of this test's own, closed when the test ends. */
export async function smallHost(options: Partial<HostOptions> = {}, create = true): Promise<SmallHost> {
  const folder = ownFolder();
  const { end, ...small } = await openSmallHost(folder, { browseRoots: [folder], ...options }, create);
  onTestFinished(() => end());
  return small;
}
