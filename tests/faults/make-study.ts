/** Makes a study as the window does and says the fault when it can't. `node make-study.ts PATH`. */
import { FaultError } from '../../src/contract/faults.ts';
import { studyHandlers } from '../../src/host/study/handlers.ts';

const [path = ''] = process.argv.slice(2);
try {
  studyHandlers({ filmFolders: [], programVersion: '0' }, Date.now)['study.create']({
    path,
    evaluatorName: 'Dana Quill',
  });
  console.log('made');
} catch (cause) {
  const fault = cause instanceof FaultError ? cause.fault : null;
  console.log(fault === null ? String(cause) : `${fault.fault}: ${fault.says}`);
}
