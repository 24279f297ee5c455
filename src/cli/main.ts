#!/usr/bin/env node
/** `creasebook`: the commands. They read a study and never change it. Exit codes: 0 done, 1 trouble, 2 asked wrongly. */
import { extname } from 'node:path';
import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { FaultError } from '../contract/faults.ts';
import { checkCommand } from './check.ts';
import { dossierCommand, dossierEndings } from './dossier.ts';
import { gradesCommand } from './grades.ts';
import { program as installed } from './read-only-host.ts';

const [trouble, askedWrongly] = [1, 2];

function outFile(path: string): string {
  const ending = extname(path).toLowerCase();
  if (dossierEndings.some((known) => known === ending)) return path;
  throw new InvalidArgumentError(`A dossier's file ends in ${dossierEndings.join(' or ')}.`);
}

type DossierOptions = { runner: string; out: string; evaluator?: string; paper: 'A4' | 'Letter' };
type GradesOptions = { runner?: string; evaluator?: string; json?: true };

const commands = new Command('creasebook')
  .description('Reads Creasebook studies: dossiers, grades, and whether a file is sound. No command changes a study.')
  .version(installed().version, '--version', 'print the version')
  .exitOverride()
  .showHelpAfterError('Add --help to see what it takes.');

commands
  .command('dossier')
  .description("write one runner's dossier, as PDF or as one HTML file")
  .argument('<study>', 'the study file (.creasebook)')
  .requiredOption('--runner <name>', "the runner's name, a part of it that only he has, or his id")
  .addOption(
    new Option('--out <file>', 'where to write it; ends in .pdf or .html').argParser(outFile).makeOptionMandatory(),
  )
  .option('--evaluator <name>', 'only the marks and words of one evaluator (default: the marks of all)')
  .addOption(new Option('--paper <size>', 'the paper').choices(['A4', 'Letter']).default('A4'))
  .action((study: string, { runner, out, evaluator, paper }: DossierOptions) =>
    dossierCommand({ study, runner, out, evaluator, paper }),
  );

commands
  .command('grades')
  .description("print runners' grades with their intervals")
  .argument('<study>', 'the study file (.creasebook)')
  .option('--runner <name>', 'one runner (default: all)')
  .option('--evaluator <name>', 'only the marks of one evaluator (default: of all)')
  .option('--json', "the sheet's figures, unrounded, as JSON")
  .action(async (study: string, { runner, evaluator, json }: GradesOptions) => {
    process.stdout.write(await gradesCommand({ study, runner, evaluator, json: json ?? false }));
  });

commands
  .command('check')
  .description('look a study through: the file, its rows, its journal, its films')
  .argument('<study>', 'the study file (.creasebook)')
  .option('--json', 'what was found as JSON')
  .action((study: string, { json }: { json?: true }) => {
    const { text, sound } = checkCommand(study, json ?? false);
    process.stdout.write(text);
    if (!sound) process.exitCode = trouble;
  });

// A reader that has seen enough (head, less) closes the pipe; that is no trouble of ours.
process.stdout.on('error', (cause: NodeJS.ErrnoException) => {
  if (cause.code !== 'EPIPE') throw cause;
  process.exit(0);
});

try {
  await commands.parseAsync();
} catch (cause) {
  if (cause instanceof CommanderError) {
    process.exitCode = cause.exitCode === 0 ? 0 : askedWrongly;
  } else if (cause instanceof FaultError) {
    process.stderr.write(`${cause.fault.says} ${cause.fault.next}\n`);
    process.exitCode = trouble;
  } else {
    process.stderr.write(
      `Creasebook made a mistake: ${cause instanceof Error ? (cause.stack ?? cause.message) : String(cause)}\n`,
    );
    process.exitCode = trouble;
  }
}
