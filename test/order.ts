/** In what order files are run: the longest first, so that no process is left alone with one of them at the end. */
import type { TestSpecification } from 'vitest/node';
import { BaseSequencer } from 'vitest/node';

/** Files that take seconds, the longest first; of the others the larger ones go first, or as long as they took the last time. */
const LONGEST = [
  'browser/web',
  'browser/pages',
  'plan/planner',
  'browser/lift',
  'server/paper/layout',
  'plan/random',
  'plan/shapes',
  'browser/back',
  'server/planning/launch',
  'plan/workLeft',
  'plan/laws',
  'stow/shapeCeiling',
  'server/paper/feet',
  'plan/halves',
  'cut/laws',
  'plan/jointCutting',
];

export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rank = ({ moduleId }: TestSpecification): number => {
      const at = LONGEST.findIndex((name) => moduleId.endsWith(`/test/${name}.test.ts`));
      return at < 0 ? LONGEST.length : at;
    };
    return (await super.sort(files)).sort((p, q) => rank(p) - rank(q));
  }
}
