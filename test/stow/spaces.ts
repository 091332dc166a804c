/** Voids, saws, rules and steels for the tests of the stowage: the job format's defaults with what a test changes. */
import { type BundleRules, type Job, type JobInput, jobSchema, type Saw, type Void } from '../../src/job/job.ts';
import type { Section } from '../../src/job/section.ts';
import { type LaidVoid, layVoid } from '../../src/stow/laid.ts';
import { type Steel, steelsOf } from '../../src/stow/steel.ts';
import type { Dice } from '../bench/dice.ts';

type VoidInput = JobInput['voids'][number];
type LotInput = JobInput['pile'][number];

const BAR: LotInput = { lot: 'A', section: { shape: 'square', side: 20 }, length: 6000, count: 5000 };

function jobOf(parts: Partial<JobInput>): Job {
  const voids = [{ void: 'V1', length: 1000, width: 300, height: 150 }];
  return jobSchema.parse({ format: 'kentledge-job/1', name: 'Trial', pile: [BAR], voids, ...parts });
}

export function sawWith(parts: Partial<Saw> = {}): Saw {
  return { ...jobOf({}).saw, ...parts };
}

export function rulesWith(parts: Partial<BundleRules> = {}): BundleRules {
  return { ...jobOf({}).bundle, ...parts };
}

export function voidOf(parts: Partial<VoidInput> = {}): Void {
  return jobOf({ voids: [{ void: 'V1', length: 1000, width: 300, height: 150, ...parts }] }).voids[0]!;
}

/** The void as its bars lie, the first way. */
export function laidOf(parts: Partial<VoidInput> = {}): LaidVoid {
  return layVoid(voidOf(parts))[0]!;
}

/** One steel for each section; `bow` for all of them. */
export function steelsFor(sections: Section[], bow = 2): Steel[] {
  const lot = (section: Section, i: number): LotInput => ({
    ...BAR,
    lot: `L${i}`,
    section,
    bow,
    massPerMetre: undefined,
  });
  return steelsOf(jobOf({ pile: sections.map(lot) }));
}

/** A section that has a mass per metre by itself. */
export function throwSection(dice: Dice): Section {
  return dice.pick<() => Section>([
    () => ({ shape: 'round', diameter: dice.whole(14, 40) }),
    () => ({ shape: 'square', side: dice.stepped(14, 40, 0.5) }),
    () => ({ shape: 'flat', width: dice.whole(25, 60), thickness: dice.whole(8, 24) }),
    () => ({ shape: 'hexagon', acrossFlats: dice.whole(14, 36) }),
    () => ({ shape: 'deformed', nominal: dice.pick([12, 16, 20, 25]) }),
    () => ({ shape: 'tube', diameter: dice.stepped(21.3, 48.3, 1), wall: 3 }),
  ])();
}
