import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { FAULTS } from '../src/fault.ts';
import { LIFT_CAUTIONS } from '../src/lift/equation.ts';
import { CAUTIONS } from '../src/plan/cautionList.ts';
import { PLAN_FAULTS } from '../src/plan/check/planFault.ts';

const FILE = join(dirname(fileURLToPath(import.meta.url)), '..', 'DEVELOPERS.md');
const text = existsSync(FILE) ? readFileSync(FILE, 'utf8') : '';

/** The codes in the first column of the table with this heading over it; those that are alike may share a row. */
function codesUnder(heading: string): string[] {
  const table = text.split(/\n\n/).find((part) => part.startsWith(`| ${heading} |`)) ?? '';
  const cells = [...table.matchAll(/^\| ((?:`[a-z0-9-]+`(?:, )?)+) \|/gm)].map(([, cell]) => cell!);
  return cells.flatMap((cell) => [...cell.matchAll(/`([a-z0-9-]+)`/g)].map(([, code]) => code!));
}

// Skipped only as long as there is no DEVELOPERS.md at all.
describe.skipIf(text === '')('DEVELOPERS.md lists, each once and no other, every', () => {
  const catalogues: [string, Record<string, unknown>][] = [
    ['fault', FAULTS],
    ['caution', CAUTIONS],
    ['plan fault', PLAN_FAULTS],
    ['lift caution', LIFT_CAUTIONS],
  ];
  it.each(catalogues)('%s', (heading, catalogue) => {
    expect(codesUnder(heading).sort()).toEqual(Object.keys(catalogue).sort());
  });
});
