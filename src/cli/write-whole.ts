import { renameSync, rmSync, writeFileSync } from 'node:fs';
import { faultOf, FaultError } from '../contract/faults.ts';

/** Writes a file whole or not at all: beside its place first, then into it. Throws a FaultError when it can't be. */
export function writeWhole(path: string, content: string | Uint8Array): void {
  const beside = `${path}.part-${process.pid}`;
  try {
    writeFileSync(beside, content);
    renameSync(beside, path);
  } catch (cause) {
    rmSync(beside, { force: true });
    const why = cause instanceof Error ? cause.message : String(cause);
    const full = cause instanceof Error && 'code' in cause && cause.code === 'ENOSPC';
    throw new FaultError(
      faultOf(full ? 'disk-full' : 'refused', `${path} can't be written: ${why}.`, 'Choose another place with --out.'),
    );
  }
}
