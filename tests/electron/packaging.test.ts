/** The packaging of the desktop program, as far as it can be checked without Electron's binary. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import { expect, test } from 'vitest';

const project = resolve(import.meta.dirname, '..', '..');
const configPath = join(project, 'electron', 'packaging.json');

type Packaging = {
  readonly files: readonly string[];
  readonly directories: { readonly buildResources: string };
  readonly electronFuses: Readonly<Record<string, boolean>>;
  readonly fileAssociations: readonly { readonly ext: string }[];
  readonly publish: unknown;
};
const packaging = (): Packaging => JSON.parse(readFileSync(configPath, 'utf8')) as Packaging;

type Builder = {
  readonly validateConfiguration: (config: unknown, logger: { isEnabled: boolean; add: () => void }) => Promise<void>;
};
// The builder's own check of a configuration against its schema; it is part of electron-builder, not exported by it.
const { validateConfiguration } = createRequire(import.meta.url)(
  join(project, 'node_modules', 'app-builder-lib', 'out', 'util', 'config', 'config.js'),
) as Builder;
const logger = { isEnabled: false, add: () => undefined };

test('the configuration is one that electron-builder takes', async () => {
  await expect(validateConfiguration(packaging(), logger)).resolves.toBeUndefined();
});

test('the check of the configuration refuses what the schema does not know', async () => {
  await expect(validateConfiguration({ ...packaging(), fuzes: {} }, logger)).rejects.toThrow(/fuzes/);
});

test('the fuses leave no way to run the program as a plain Node, to inspect it, or to load it from elsewhere', () => {
  expect(packaging().electronFuses).toEqual({
    runAsNode: false,
    enableCookieEncryption: true,
    enableNodeOptionsEnvironmentVariable: false,
    enableNodeCliInspectArguments: false,
    enableEmbeddedAsarIntegrityValidation: true,
    onlyLoadAppFromAsar: true,
    loadBrowserProcessSpecificV8Snapshot: false,
    grantFileProtocolExtraPrivileges: false,
  });
});

test('a study is opened by a double click, and the program asks no one for updates', () => {
  expect(packaging().fileAssociations.map(({ ext }) => ext)).toEqual(['creasebook']);
  expect(packaging().publish).toBeNull();
});

test('the entry that package.json names is among the files packed', () => {
  const { main } = JSON.parse(readFileSync(join(project, 'package.json'), 'utf8')) as { main: string };
  expect(main).toBe('build/electron/main.js');
  expect(packaging().files).toContain('build/electron/**/*.js');
});

test('the icon is a square PNG of 1024 pixels, of which every size is made', () => {
  const png = readFileSync(join(project, packaging().directories.buildResources, 'icon.png'));
  expect(png.subarray(1, 4).toString()).toBe('PNG');
  expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([1024, 1024]);
});
