/** A program of its own that opens a study, says how, and holds it until its input ends. `node hold-study.ts PATH`. */
import { openStudy } from '../../../src/host/study/study.ts';

const [path = ''] = process.argv.slice(2);
try {
  const study = openStudy(path);
  process.stdout.write(`${study.readOnlyBecause ?? 'may write'}\n`);
  process.stdin.resume().on('end', () => {
    study.close();
    process.exit(0);
  });
} catch (cause) {
  process.stdout.write(`${cause instanceof Error ? cause.message : String(cause)}\n`);
}
