import { parseArgs } from 'node:util';

/** What a person may ask of a start, after `npm start --`. */
export type StartArguments = {
  readonly study: string | null;
  readonly folders: readonly string[];
  /** 0 takes any free port. */
  readonly port: number;
  readonly open: boolean;
};

const usage = 'It takes --study FILE, --folder DIR (any number), --port N and --no-open.';

/** Reads the arguments of a start; a sentence about what is wrong with them instead, when they can't be read. */
export function startArguments(args: readonly string[]): StartArguments | string {
  let values;
  try {
    ({ values } = parseArgs({
      args: [...args],
      options: {
        study: { type: 'string' },
        folder: { type: 'string', multiple: true, default: [] },
        port: { type: 'string', default: '0' },
        'no-open': { type: 'boolean', default: false },
      },
    }));
  } catch (cause) {
    const [says = ''] = (cause instanceof Error ? cause.message : String(cause)).split('. ');
    return `${says.replace(/\.$/, '')}. ${usage}`;
  }
  const port = /^\d{1,5}$/.test(values.port) ? Number(values.port) : Number.NaN;
  if (!(port <= 65_535)) return `--port takes a whole number from 0 to 65535, got ${values.port}.`;
  return { study: values.study ?? null, folders: values.folder, port, open: !values['no-open'] };
}
