import { describe, expect, it } from 'vitest';
import type { Fault } from '../../src/fault.ts';
import { readJob, readJobValue } from '../../src/job/readJob.ts';
import { exampleNames, exampleText } from '../examples.ts';
import { ownTime } from '../ownTime.ts';

interface Stated {
  [key: string]: unknown;
  pile: Record<string, unknown>[];
  voids: Record<string, unknown>[];
}

/** A small right job, fresh for every test. */
function stated(): Stated {
  return {
    format: 'kentledge-job/1',
    name: 'Trial',
    pile: [{ lot: 'A', section: { shape: 'round', diameter: 20 }, length: 4000, count: 5 }],
    voids: [{ void: 'V1', length: 1200, width: 300, height: 160 }],
  };
}

function faultsOf(job: unknown): Fault[] {
  const read = readJobValue(job);
  return read.ok ? [] : read.faults;
}

/** Writes a value at a path of the job. */
function put(path: string, value: unknown): (job: Stated) => void {
  return (job) => {
    const keys = path.split(/[.[\]]+/).filter((key) => key !== '');
    let at = job as Record<string, unknown>;
    for (const key of keys.slice(0, -1)) at = at[key] as Record<string, unknown>;
    at[keys.at(-1)!] = value;
  };
}

/** Code and path of every fault after `change`. */
function codesAfter(change: (job: Stated) => void): string[] {
  const job = stated();
  change(job);
  return faultsOf(job).map((fault) => `${fault.code} ${fault.path}`);
}

describe('a job file that is right', () => {
  it('is read with every default of the format page', () => {
    const read = readJob(JSON.stringify(stated()));
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    const { job } = read.value;
    expect(job.steel.density).toBe(7850);
    expect(job.saw).toEqual({
      kerf: 3,
      squaring: 0,
      tolerance: 2,
      shortestPiece: 150,
      keepFrom: 900,
      gang: 1,
      minutesPerCut: 2,
      minutesPerStop: 5,
    });
    expect(job.bundle).toMatchObject({ limit: 8, wrap: 3, wrapping: 0, endCover: 2, maxBars: 30, joints: null });
    expect(job.voids[0]).toMatchObject({
      axis: 'fore-and-aft',
      clear: { ends: 8, sides: 5, top: 12 },
      dunnage: 12,
      gap: { runs: 8, across: 4 },
      rank: 1,
    });
    expect(job.pile[0]).toMatchObject({ coating: 'unknown', bow: 2, spoiled: [] });
    expect(job.aims).toMatchObject({ kgPerHour: 5, fixedShare: 0.8 });
  });

  it('keeps names as they are: Unicode, markup, byte order mark before it', () => {
    const job = { ...stated(), name: '<b>Бородатка</b> ⚓ Ωμέγα & “co”' };
    const read = readJob(`\uFEFF${JSON.stringify(job)}`);
    expect(read.ok && read.value.job.name).toBe(job.name);
  });

  it.skipIf(exampleNames().length === 0)('is every one of the examples, with the digest that its plan carries', () => {
    for (const name of exampleNames()) {
      const read = readJob(exampleText(`${name}.job.json`), { toCheck: true });
      if (!read.ok) throw new Error(`${name}: ${JSON.stringify(read.faults)}`);
      expect(read.value.digest).toBe(JSON.parse(exampleText(`${name}.plan.json`)).jobDigest);
    }
  });
});

describe('a file that is no job', () => {
  const refusals: [string, string | Uint8Array, string, RegExp][] = [
    ['empty', '', 'not-json', /empty/],
    ['cut off', '{"format":\n "kentledge-job/1"', 'not-json', /Line 2, column \d+: a closing brace/],
    ['with a trailing comma', '{\n  "a": 1,\n}', 'not-json', /Line 3, column 1/],
    ['with single quotes', "{'a': 1}", 'not-json', /Line 1, column 2/],
    ['with a comment', '{\n // no\n "a": 1}', 'not-json', /Line 2, column 2: a comment/],
    ['not UTF-8', new Uint8Array([0x7b, 0xff, 0x7d]), 'not-json', /UTF-8/],
    ['nested without end', '['.repeat(1_000_000), 'too-large', /^Line 1, column 33: /],
    ['a list', '[]', 'wrong-type', /no job/],
    ['null', 'null', 'wrong-type', /no job/],
    ['too large', ' '.repeat(5 * 1024 * 1024 + 1), 'too-large', /5 MB/],
    ['a plan', '{"format":"kentledge-plan/1"}', 'wrong-type', /is a plan/],
    ['a job of a newer kentledge', '{"format":"kentledge-job/2","new":1}', 'newer-file', /newer/],
    [
      'a job with a field twice',
      JSON.stringify(stated()).replace('"name"', '"name":"x","name"'),
      'not-unique',
      /twice/,
    ],
  ];
  it.each(refusals)('%s is refused with the reason', (_name, text, code, words) => {
    const read = readJob(text);
    if (read.ok) throw new Error('it was read');
    expect(read.faults[0]?.code).toBe(code);
    expect(read.faults[0]?.message).toMatch(words);
    for (const fault of read.faults) expect(fault.remedy).toMatch(/\.$/);
  });

  it('is told of a newer format and of nothing else', () => {
    expect(faultsOf({ format: 'kentledge-job/7', whatever: true }).map((fault) => fault.code)).toEqual(['newer-file']);
  });
});

describe('every fault is named with its path', () => {
  const cases: [string, (job: Stated) => void, string][] = [
    ['a missing name', (j) => delete j.name, 'missing-field name'],
    ['an empty name', put('name', ''), 'out-of-range name'],
    ['a lot named with spaces', put('pile[0].lot', '  '), 'out-of-range pile[0].lot'],
    ['a void named with a space that does not break', put('voids[0].void', '\u00a0\t'), 'out-of-range voids[0].void'],
    ['a void named with what is never seen', put('voids[0].void', '\u200b'), 'out-of-range voids[0].void'],
    ['an empty pile', put('pile', []), 'out-of-range pile'],
    ['no voids', (j) => delete (j as Partial<Stated>).voids, 'missing-field voids'],
    ['a number as text', put('pile[0].length', '4000'), 'wrong-type pile[0].length'],
    ['a negative length', put('pile[0].length', -1), 'out-of-range pile[0].length'],
    ['half a bar', put('pile[0].count', 1.5), 'wrong-type pile[0].count'],
    ['an unknown field', put('saws', {}), 'unknown-field saws'],
    [
      'a field named __proto__',
      (j) => Object.defineProperty(j, '__proto__', { value: 1, enumerable: true }),
      'unknown-field __proto__',
    ],
    ['an unknown shape', put('pile[0].section', { shape: 'rond' }), 'out-of-range pile[0].section.shape'],
    ['no shape', put('pile[0].section', { diameter: 3 }), 'missing-field pile[0].section.shape'],
    [
      'a size of another shape',
      put('pile[0].section', { shape: 'round', diameter: 9, wall: 2 }),
      'unknown-field pile[0].section.wall',
    ],
    ['an unknown axis', put('voids[0].axis', 'up'), 'out-of-range voids[0].axis'],
    ['three hands', put('voids[0].handling', { hands: 3 }), 'out-of-range voids[0].handling.hands'],
    [
      'a range of one',
      put('voids[0].keepOut', [{ along: [1], across: [0, 1], up: [0, 1] }]),
      'out-of-range voids[0].keepOut[0].along',
    ],
    ['two lots of one name', (j) => void j.pile.push({ ...j.pile[0] }), 'not-unique pile[1].lot'],
    ['two voids of one name', (j) => void j.voids.push({ ...j.voids[0] }), 'not-unique voids[1].void'],
    [
      'length and lengths',
      (j) => void Object.assign(j.pile[0]!, { lengths: [4000], count: undefined }),
      'contradiction pile[0].lengths',
    ],
    ['neither length nor lengths', (j) => delete j.pile[0]!.length, 'missing-field pile[0].length'],
    [
      'a count beside other lengths',
      put('pile[0]', { ...stated().pile[0], length: undefined, lengths: [4000, 3990] }),
      'contradiction pile[0].count',
    ],
    ['a bar in metres', put('pile[0].length', 5.48), 'wrong-unit pile[0].length'],
    [
      'a section in metres',
      put('pile[0].section', { shape: 'round', diameter: 0.032 }),
      'wrong-unit pile[0].section.diameter',
    ],
    [
      'a spoiled span outside its bar',
      put('pile[0].spoiled', [{ from: 3900, to: 4001 }]),
      'contradiction pile[0].spoiled[0].to',
    ],
    [
      'a spoiled span outside the shortest bar',
      put('pile[0]', {
        ...stated().pile[0],
        length: undefined,
        count: undefined,
        lengths: [4000, 3000],
        spoiled: [{ from: 3100, to: 3200 }],
      }),
      'contradiction pile[0].spoiled[0].to',
    ],
    [
      'a spoiled span backwards',
      put('pile[0].spoiled', [{ from: 900, to: 800 }]),
      'contradiction pile[0].spoiled[0].to',
    ],
    ['an empty spoiled span', put('pile[0].spoiled', [{ from: 900, to: 900 }]), 'contradiction pile[0].spoiled[0].to'],
    [
      'other without a weight',
      put('pile[0].section', { shape: 'other', width: 40, height: 20 }),
      'missing-field pile[0].massPerMetre',
    ],
    ['a bar heavier than solid steel', put('pile[0].massPerMetre', 9), 'wrong-unit pile[0].massPerMetre'],
    ['a bar far lighter than its section', put('pile[0].massPerMetre', 0.5), 'wrong-unit pile[0].massPerMetre'],
    [
      'a tube all wall',
      put('pile[0].section', { shape: 'tube', diameter: 40, wall: 20 }),
      'contradiction pile[0].section.wall',
    ],
    [
      'a box all wall',
      put('pile[0].section', { shape: 'box', width: 40, height: 20, wall: 10 }),
      'contradiction pile[0].section.wall',
    ],
    [
      'an angle all steel',
      put('pile[0].section', { shape: 'angle', leg: 40, otherLeg: 20, thickness: 20 }),
      'contradiction pile[0].section.thickness',
    ],
    ['squaring that eats the bar', put('pile[0].squaring', 2000), 'contradiction pile[0].squaring'],
    ['squaring of the saw that eats the bar', put('saw', { squaring: 2000 }), 'contradiction saw.squaring'],
    ['a wrapping as heavy as the limit', put('bundle', { limit: 6, wrapping: 6 }), 'contradiction bundle.wrapping'],
    ['a void in metres', put('voids[0].length', 1.2), 'wrong-unit voids[0].length'],
    ['an opening in metres', put('voids[0].opening', { along: 0.7, across: 340 }), 'wrong-unit voids[0].opening.along'],
    ['ends that leave no length', put('voids[0].clear', { ends: 600 }), 'contradiction voids[0].clear.ends'],
    ['sides that leave no width', put('voids[0].clear', { sides: 150 }), 'contradiction voids[0].clear.sides'],
    ['dunnage that leaves no height', put('voids[0].dunnage', 150), 'contradiction voids[0].clear.top'],
    [
      'a target over the most',
      (j) => void Object.assign(j.voids[0]!, { target: 200, most: 190 }),
      'contradiction voids[0].target',
    ],
    [
      'a keep-out backwards',
      put('voids[0].keepOut', [{ along: [9, 1], across: [0, 1], up: [0, 1] }]),
      'contradiction voids[0].keepOut[0].along',
    ],
    [
      'stations that begin late',
      put('voids[0].stations', stations(50, 1200)),
      'contradiction voids[0].stations[0].along',
    ],
    [
      'stations that end early',
      put('voids[0].stations', stations(0, 1100)),
      'contradiction voids[0].stations[1].along',
    ],
    [
      'two stations in one place',
      put('voids[0].stations', stations(0, 1200, 1200)),
      'not-unique voids[0].stations[2].along',
    ],
    ['one station', put('voids[0].stations', stations(0)), 'out-of-range voids[0].stations'],
    [
      'a reading backwards',
      put('voids[0].stations', [{ along: 0, at: [{ up: 0, from: 10, to: -10 }] }, ...stations(1200)]),
      'contradiction voids[0].stations[0].at[0].to',
    ],
    [
      'two readings at one height',
      put('voids[0].stations', [
        {
          along: 0,
          at: [
            { up: 0, from: -9, to: 9 },
            { up: 0, from: -9, to: 9 },
          ],
        },
        ...stations(1200),
      ]),
      'not-unique voids[0].stations[0].at[1].up',
    ],
    [
      'stations laid either way',
      (j) => void Object.assign(j.voids[0]!, { axis: 'either', stations: stations(0, 1200) }),
      'contradiction voids[0].axis',
    ],
    ['a centre backwards', put('aims', { centre: { x: [5, 4] } }), 'contradiction aims.centre.x'],
    ['a spread from nowhere', put('aims', { spread: 1.5 }), 'missing-field vessel.lcf'],
    ['a ballast in tonnes', put('aims', { ballast: 0.7 }), 'wrong-unit aims.ballast'],
    ['a way that begins nowhere', put('voids[0].route', ['quay']), 'contradiction voids[0].route[0]'],
    ['two legs of one name', put('lift', { legs: [{ leg: 'quay' }, { leg: 'quay' }] }), 'not-unique lift.legs[1].leg'],
    ['a displacement in tonnes', put('vessel', { displacement: 8.6 }), 'wrong-unit vessel.displacement'],
    ['a GM in centimetres', put('vessel', { gm: 58 }), 'wrong-unit vessel.gm'],
    ['a beam in centimetres', put('vessel', { beam: 320 }), 'wrong-unit vessel.beam'],
    [
      'an overloaded vessel',
      put('vessel', { displacement: 8600, displacementMost: 8000 }),
      'contradiction vessel.displacementMost',
    ],
  ];

  function stations(...places: number[]): object[] {
    return places.map((along) => ({
      along,
      at: [
        { up: 0, from: -90, to: 90 },
        { up: 160, from: -150, to: 150 },
      ],
    }));
  }

  it.each(cases)('%s', (_name, change, expected) => {
    expect(codesAfter(change)).toEqual([expected]);
  });

  it.each([
    ['gm', 58, 0.58],
    ['gm', 580, 0.58],
    ['lcf', 470, 4.7],
    ['lcf', 4700, 4.7],
    ['beam', 320, 3.2],
    ['waterlineLength', 9800, 9.8],
    ['draughtAft', 920, 0.92],
  ])('and a vessel’s %s of %d is offered as %d m', (field, value, meant) => {
    expect(faultsOf({ ...stated(), vessel: { [field]: value } })[0]?.remedy).toContain(`Did you mean ${meant}?`);
  });

  it('and the meant figure is offered', () => {
    const job = stated();
    job.voids[0]!.length = 1.2;
    expect(faultsOf(job)[0]?.remedy).toContain('Did you mean 1200?');
    job.voids[0]!.length = '1200 mm';
    expect(faultsOf(job)[0]?.remedy).toContain('number alone');
    job.voids[0]!.length = '1200';
    expect(faultsOf(job)[0]?.remedy).toContain('Write 1200 without');
    job.voids[0]!.lenght = 1200;
    expect(faultsOf(job).find((fault) => fault.code === 'unknown-field')?.remedy).toContain('Did you mean “length”?');
  });

  it('and all of them come at once, the schema’s and the comparisons’ together', () => {
    const found = codesAfter((job) => {
      job.pile.push(
        { ...job.pile[0], spoiled: [{ from: 9, to: 5 }] },
        { lot: 'B', section: { shape: 'round', diameter: '20' }, length: 4000 },
      );
      job.voids.push({ void: 'V1', length: 1200, width: 300 });
      job.aims = { spread: 2, centre: { y: [1, -1] } };
      job.vessel = { gm: 'x' };
    });
    expect(found.sort()).toEqual(
      [
        'contradiction aims.centre.y',
        'contradiction pile[1].spoiled[0].to',
        'missing-field vessel.lcf',
        'missing-field voids[1].height',
        'not-unique pile[1].lot',
        'not-unique voids[1].void',
        'wrong-type pile[2].section.diameter',
        'wrong-type vessel.gm',
      ].sort(),
    );
  });
});

describe('a field that nobody knows', () => {
  it('keeps none of the other faults of its lot, void, aims and vessel from being told', () => {
    const found = codesAfter((job) => {
      job.pile[0]!.colour = 'red';
      job.pile[0]!.spoiled = [{ from: 3900, to: 4100, why: 'weld' }];
      job.voids[0]!.keepOut = [{ along: [9, 5], across: [0, 5], up: [0, 5], bolt: { deep: [[]] } }];
      job.aims = { centre: { y: [1, -1] }, zeal: 1 };
      job.vessel = { displacement: 8.6, owner: 'me' };
    });
    expect(found.sort()).toEqual(
      [
        'contradiction aims.centre.y',
        'contradiction pile[0].spoiled[0].to',
        'contradiction voids[0].keepOut[0].along',
        'unknown-field aims.zeal',
        'unknown-field pile[0].colour',
        'unknown-field pile[0].spoiled[0].why',
        'unknown-field vessel.owner',
        'unknown-field voids[0].keepOut[0].bolt',
        'wrong-unit vessel.displacement',
      ].sort(),
    );
  });

  it('and may be a known one misspelt is not taken to be absent', () => {
    const lot = { lot: 'A', section: { shape: 'round', diameter: 20 }, lenght: 4000, count: 5 };
    expect(codesAfter((job) => job.pile.splice(0, 1, lot))).toEqual(['unknown-field pile[0].lenght']);
  });
});

describe('a job of nearly 5 MB', () => {
  it('is read, or refused, in good time', async () => {
    const lengths = Array.from({ length: 90_000 }, (_, i) => 1000 + (i % 5000));
    const lots = Array.from({ length: 8 }, (_, i) => ({
      lot: `L${i}`,
      section: { shape: 'square', side: 20 },
      lengths,
    }));
    const text = JSON.stringify({ ...stated(), pile: lots });
    expect(text.length).toBeGreaterThan(3_500_000);
    expect(text.length).toBeLessThan(5 * 1024 * 1024);
    const spent = await ownTime(() => {
      expect(readJob(text).ok).toBe(true);
    });
    expect(spent).toBeLessThan(10_000);
  });
});
