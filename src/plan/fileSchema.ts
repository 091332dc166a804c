/**
 * The formats of the files for programs of others: JSON Schema (draft 2020-12), made from the schemas that kentledge itself
 * reads with, so that the two can not differ. A job or cut list is given as it is written, before defaults. Rules between
 * fields are not in it: `readJob`, `readCutList` and `check` tell those.
 */
import { z } from 'zod';
import { cutListSchema } from '../job/cutlist.ts';
import { jobSchema } from '../job/job.ts';
import { planSchema } from './plan.ts';

const FILES = { job: jobSchema, plan: planSchema, cutlist: cutListSchema };

export type FileKind = keyof typeof FILES;
export const FILE_KINDS = Object.keys(FILES) as FileKind[];

/** The schema of a file as indented JSON, with a line break at its end. */
export function fileSchema(kind: FileKind): string {
  const { $schema, title, description, ...rest } = z.toJSONSchema(FILES[kind], { io: 'input' });
  return `${JSON.stringify({ $schema, title, description, ...rest }, null, 2)}\n`;
}
