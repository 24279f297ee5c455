import { rubricBody, type RubricBody } from '../../contract/rows.ts';
import { rubricFaults } from '../../core/rubric/rubric.ts';

const format = 'creasebook rubric 1';

/** A rubric as the text of a file that another study can take. */
export function rubricFile(name: string, body: RubricBody): string {
  return `${JSON.stringify({ format, name, ...body }, null, 2)}\n`;
}

/** Reads a rubric file; the words say what is wrong with one that can't be taken. */
export function readRubricFile(text: string): { readonly body: RubricBody } | { readonly wrong: string } {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch {
    return { wrong: 'A rubric file is JSON; this is not.' };
  }
  if (typeof parsed !== 'object' || parsed === null || !('format' in parsed) || parsed.format !== format) {
    return { wrong: `A rubric file says "format": "${format}"; this one does not.` };
  }
  const { families, bars } = parsed as { families?: unknown; bars?: unknown };
  const body = rubricBody.safeParse({ families, bars });
  if (!body.success) {
    const [issue] = body.error.issues;
    return {
      wrong: `This rubric does not fit at ${issue?.path.map(String).join('.') ?? 'its beginning'}: ${issue?.message ?? ''}.`,
    };
  }
  const [fault] = rubricFaults(body.data);
  return fault === undefined ? { body: body.data } : { wrong: `This rubric can't be used: ${fault}.` };
}
