/** Pairs of job and plan that are right by the format page, where they lie beside the repository; none elsewhere. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const FOLDER =
  process.env.KENTLEDGE_EXAMPLES ?? resolve(dirname(fileURLToPath(import.meta.url)), '../../shared/examples');

/** `box-1`, `bilge-3` … in order; none where the folder is absent (tests then skip and say so). */
export function exampleNames(): string[] {
  if (!existsSync(FOLDER)) return [];
  const files = readdirSync(FOLDER).filter((name) => name.endsWith('.plan.json'));
  return files.map((name) => name.replace('.plan.json', '')).sort();
}

/** The text of one example file. */
export function exampleText(file: string): string {
  return readFileSync(join(FOLDER, file), 'utf8');
}
