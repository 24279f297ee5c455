/** Trouble of the disk and of SQLite, told as faults; anything else is handed back as it came. */
import { faultOf, FaultError, type FaultKind } from '../../contract/faults.ts';

const trouble = (kind: FaultKind, says: string, next: string): FaultError => new FaultError(faultOf(kind, says, next));

function constraintFault(message: string): FaultError {
  if (message.includes('mark_once')) {
    return trouble(
      'refused',
      'This trait is already marked on this carry by this evaluator.',
      'Change that mark instead.',
    );
  }
  if (message.includes('part.play_id')) {
    return trouble('refused', 'This runner already has a part in this play.', 'Change that part instead.');
  }
  if (message.includes('FOREIGN KEY')) {
    return trouble(
      'refused',
      'Something this row points at, or that points at it, is not there or would be lost.',
      'Read the study again; nothing was changed.',
    );
  }
  return trouble('refused', `The study refused the change: ${message}.`, 'Nothing was changed.');
}

/**
 * Turns what SQLite or the file system threw into a FaultError a person can act on: a full disk, a place that can't be
 * written, another program's lock, damage, a refused row. Any other cause comes back unchanged, since it is our bug.
 */
export function storageFault(cause: unknown): unknown {
  if (!(cause instanceof Error) || cause instanceof FaultError || !('code' in cause)) return cause;
  const code = String(cause.code);
  if (code === 'SQLITE_FULL' || code === 'ENOSPC' || code === 'EDQUOT') {
    return trouble(
      'disk-full',
      'The disk is full, so the change was not kept.',
      'Free some space and make it again; all before it is safe.',
    );
  }
  if (code.startsWith('SQLITE_READONLY') || code === 'EROFS' || code === 'EACCES' || code === 'EPERM') {
    return trouble(
      'read-only',
      `This study can only be read, or not even that: ${cause.message}.`,
      'Save a copy where you may write, and open that.',
    );
  }
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED')) {
    return trouble('study-locked', 'Another program is writing to this study.', 'Try again in a moment.');
  }
  if (code.startsWith('SQLITE_IOERR')) {
    return trouble(
      'disk-full',
      `The disk did not take the change (${cause.message}).`,
      'Check the disk; all before it is safe.',
    );
  }
  if (code.startsWith('SQLITE_CORRUPT') || code.startsWith('SQLITE_NOTADB')) {
    return trouble(
      'study-damaged',
      `The study file is damaged: ${cause.message}.`,
      'Open a backup, or run `creasebook check` on it to see what is left.',
    );
  }
  if (code.startsWith('SQLITE_CANTOPEN')) {
    return trouble(
      'read-only',
      `The study file can't be opened: ${cause.message}.`,
      'Check that you may read the file and write in its folder.',
    );
  }
  if (code.startsWith('SQLITE_CONSTRAINT')) return constraintFault(cause.message);
  return cause;
}
