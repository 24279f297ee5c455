/**
 * Fits expected yards to your own play-by-play.
 *
 *   npm run fit-expected-yards -- carries.csv [model.json]
 *
 * The table has headings and one row a carry: down, to go, yards to goal (or spot, from the own goal line), gain; and,
 * where known, shotgun, box, season, runner. Writes the model and, beside it, its card (.md).
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { parse } from 'csv-parse/sync';
import { fitTable } from '../src/core/expectation/fit-carry.ts';
import { fitCard } from '../src/core/expectation/fit-card.ts';
import { fitYardsModel } from '../src/core/expectation/fit.ts';

function refuse(words: string): never {
  process.stderr.write(`${words}\n`);
  process.exit(1);
}

const [table, out] = process.argv.slice(2);
if (table === undefined) refuse('Wanted: npm run fit-expected-yards -- carries.csv [model.json]');
const modelPath = out ?? table.replace(/(\.csv)?$/i, '.model.json');
const rows: Record<string, string>[] = parse(readFileSync(table), { columns: true, bom: true, skip_empty_lines: true });
const read = fitTable(rows);
if (!read.known) refuse(read.detail);
const name = basename(modelPath).replace(/(\.model)?\.json$/i, '');
const fit = fitYardsModel(read.value.carries, { key: name, name, source: `${basename(table)}, the user's own table` });
if (!fit.known) refuse(fit.detail);
const card = fitCard(fit.value, read.value.skipped);
const cardPath = modelPath.replace(/(\.json)?$/i, '.md');
writeFileSync(modelPath, `${JSON.stringify(fit.value.model, null, 1)}\n`);
writeFileSync(cardPath, card);
process.stdout.write(`${card}\nWritten: ${modelPath}, ${cardPath}\n`);
