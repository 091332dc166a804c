import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');

/** Arrows point down: a file imports from its own floor or from those below it. */
const FLOORS = [
  ['src/fault.ts', 'src/units.ts', 'src/version.ts', 'src/linear'],
  ['src/job', 'src/cut'],
  ['src/stow', 'src/lift'],
  ['src/plan'],
  ['src/drawing', 'src/balance', 'src/hold'],
  ['server'],
];
const SOLVERS = ['highs', 'javascript-lp-solver'];
/** What reaches outside a computation. */
const OUTSIDE =
  /^(node:(fs|net|http|https|child_process|worker_threads|os|dgram|tls)|better-sqlite3|express|pdfkit|pino)/;

interface Import {
  from: string;
  to: string;
}

function filesUnder(folder: string): string[] {
  return readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => join(folder, name));
}

const SOURCES = [...filesUnder('src'), ...filesUnder('server')];
const ALL = [...SOURCES, ...filesUnder('test'), ...filesUnder('views')];
const textOf = new Map(ALL.map((file) => [file, readFileSync(join(ROOT, file), 'utf8')]));

/** Imports and re-exports of a file: relative ones as paths from the root, packages by name. */
function importsOf(file: string): Import[] {
  const text = textOf.get(file)!;
  const found = text.matchAll(/(?:\bfrom\s+|\bimport\s*\(?\s*)'([^']+)'/g);
  return [...found].map(([, to]) => {
    const path = to!.startsWith('.') ? normalize(join(dirname(file), to!)) : to!;
    return { from: file, to: path };
  });
}

function floorOf(file: string): number {
  return FLOORS.findIndex((floor) => floor.some((place) => file === place || file.startsWith(`${place}/`)));
}

const IMPORTS = SOURCES.flatMap(importsOf);
const told = (imports: Import[]) => imports.map(({ from, to }) => `${from} imports ${to}`);

describe('the house', () => {
  it('has a floor for every source file', () => {
    expect(SOURCES.filter((file) => floorOf(file) < 0)).toEqual([]);
    expect(IMPORTS.length).toBeGreaterThan(100);
  });

  it('imports downwards only', () => {
    const upward = IMPORTS.filter(({ from, to }) => !isPackage(to) && floorOf(to) > floorOf(from));
    expect(told(upward)).toEqual([]);
  });

  it('imports nothing of src from outside it but through its files', () => {
    expect(
      told(IMPORTS.filter(({ from, to }) => from.startsWith('src/') && !isPackage(to) && !to.startsWith('src/'))),
    ).toEqual([]);
  });

  it('lets only src/linear know a solver', () => {
    const known = IMPORTS.filter(({ to }) => SOLVERS.some((name) => to === name || to.startsWith(`${name}/`)));
    expect(told(known.filter(({ from }) => !from.startsWith('src/linear/')))).toEqual([]);
    expect(new Set(known.map(({ to }) => to)).size).toBe(SOLVERS.length);
  });

  it('keeps the checker apart from what it checks', () => {
    const checker = IMPORTS.filter(({ from }) => from === 'src/plan/check.ts' || from.startsWith('src/plan/check/'));
    const apart = ['src/cut', 'src/stow', 'src/linear'];
    expect(told(checker.filter(({ to }) => apart.some((place) => to.startsWith(place))))).toEqual([]);
    const planner = checker.filter(
      ({ to }) => to.startsWith('src/plan/') && !to.startsWith('src/plan/check/') && to !== 'src/plan/plan.ts',
    );
    expect(told(planner)).toEqual([]);
    const users = IMPORTS.filter(
      ({ from, to }) => to.startsWith('src/plan/check/') && !from.startsWith('src/plan/check'),
    );
    expect(told(users.filter(({ to }) => to !== 'src/plan/check/planFault.ts'))).toEqual([]);
  });

  it('loads the planner without the library of schemas, which takes as long as the planner', () => {
    const needed = new Set(['server/planning/thread.ts']);
    for (const file of needed) if (!isPackage(file)) for (const to of neededBy(file)) needed.add(to);
    expect(needed.size).toBeGreaterThan(100);
    expect([...needed].filter((name) => isPackage(name) && !name.startsWith('node:'))).toEqual(['highs']);
  });

  it('keeps src pure: no files, no network, no clock, no dice, no locale', () => {
    expect(told(IMPORTS.filter(({ from, to }) => from.startsWith('src/') && OUTSIDE.test(to)))).toEqual([]);
    const impure = /\bDate\.now\(|\bnew Date\(\)|\bMath\.random\(|\bperformance\.now\(|\blocaleCompare\(|\bprocess\./;
    expect(SOURCES.filter((file) => file.startsWith('src/') && impure.test(withoutComments(file)))).toEqual([]);
  });

  it('makes no decision in the engine by what may differ between machines', () => {
    const engine = ['src/cut/', 'src/stow/', 'src/plan/', 'src/lift/', 'src/job/', 'src/linear/'];
    const shaky =
      /\bMath\.(pow|exp|expm1|log|log2|log10|log1p|sin|cos|tan|asin|acos|atan|atan2|sinh|cosh|tanh|cbrt|hypot)\(/;
    const inEngine = SOURCES.filter((file) => engine.some((place) => file.startsWith(place)));
    expect(inEngine.filter((file) => shaky.test(withoutComments(file)))).toEqual([]);
  });
});

describe('every file', () => {
  it('has at most 400 lines', () => {
    expect(ALL.filter((file) => textOf.get(file)!.trimEnd().split('\n').length > 400)).toEqual([]);
  });

  it('of the sources has some 100 lines at the median', () => {
    const lengths = SOURCES.map((file) => textOf.get(file)!.split('\n').length).sort((p, q) => p - q);
    expect(lengths[Math.floor(lengths.length / 2)]).toBeLessThanOrEqual(130);
  });

  it('exports by name, and none re-exports another', () => {
    expect(SOURCES.filter((file) => /^export default\b/m.test(textOf.get(file)!))).toEqual([]);
    expect(SOURCES.filter((file) => /^export\s+(\*|\{[^}]*\})\s+from\b/m.test(textOf.get(file)!))).toEqual([]);
  });

  it('keeps no state of its own between calls', () => {
    expect(SOURCES.filter((file) => /^(export )?(let|var)\b/m.test(textOf.get(file)!))).toEqual([]);
  });
});

/** What a file needs when it runs: not what is imported for its types alone. */
function neededBy(file: string): string[] {
  const found = textOf.get(file)!.matchAll(/^(?:import|export)\s+(?!type\b)(?:[^;']*?\bfrom\s+)?'([^']+)'/gm);
  return [...found].map(([, to]) => (to!.startsWith('.') ? normalize(join(dirname(file), to!)) : to!));
}

function withoutComments(file: string): string {
  return textOf.get(file)!.replace(/\/\*[\s\S]*?\*\/|(^|\s)\/\/.*$/gm, '');
}

function isPackage(to: string): boolean {
  return (
    !to.startsWith('src/') &&
    !to.startsWith('server/') &&
    !to.startsWith('views/') &&
    !to.startsWith('test/') &&
    !to.startsWith('..')
  );
}
