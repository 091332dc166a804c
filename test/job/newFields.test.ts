import { describe, expect, it } from 'vitest';
import { readJobValue } from '../../src/job/readJob.ts';

type Stated = Record<string, unknown>;

function jobOf(space: Stated, rest: Stated = {}): Stated {
  return {
    format: 'kentledge-job/1',
    name: 'Trial',
    pile: [{ lot: 'A', section: { shape: 'round', diameter: 20 }, length: 4000, count: 5 }],
    voids: [{ void: 'V1', length: 1200, width: 300, height: 160, ...space }],
    ...rest,
  };
}

function faultsOf(space: Stated, rest?: Stated): string[] {
  const read = readJobValue(jobOf(space, rest));
  return read.ok ? [] : read.faults.map((fault) => `${fault.code} ${fault.path}`);
}

describe('what carries a void and what is kept free in it', () => {
  it('is read as stated, and nothing is made up where it is not', () => {
    const space = {
      bearers: [
        { along: 100, width: 40, most: 90 },
        { along: 600, width: 40 },
      ],
      mostPerMetre: 120,
      drain: { width: 60, height: 25, where: 'middle' },
      opening: { along: 400, across: 300, at: { along: 300, across: -20 } },
      otherOpenings: [{ along: 300, across: 200, at: { along: 1000 } }],
      keepOut: [{ what: 'old pig', along: [0, 90], across: [-50, 50], up: [0, 60], mass: 41, aboard: true }],
    };
    const read = readJobValue(jobOf(space, { aims: { listMost: 1.5 }, needs: '0.1.0' }));
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    expect(read.value.job.voids[0]).toMatchObject(space);
    expect(read.value.job.voids[0]!.otherOpenings![0]).toMatchObject({
      endFirst: false,
      deck: 0,
      at: { along: 1000, across: 0 },
    });
    expect(read.value.job.aims.listMost).toBe(1.5);
    const bare = readJobValue(jobOf({}));
    if (!bare.ok) throw new Error('a bare job is right');
    const fields = ['bearers', 'mostPerMetre', 'drain', 'otherOpenings'];
    for (const field of fields) expect(bare.value.job.voids[0]).not.toHaveProperty(field);
    expect(bare.value.job.aims).not.toHaveProperty('listMost');
  });

  it('is faulted where it can not be, all at once', () => {
    const space = {
      axis: 'either',
      bearers: [
        { along: 1300, width: 40, most: 0 },
        { along: 600, width: 0.04 },
        { along: 590, width: 80 },
      ],
      drain: { width: 160, height: 200, where: 'sides' },
      opening: { along: 400, across: 300, at: { along: 1300, across: 160 } },
      otherOpenings: [{ along: 0.3, across: 200, at: { along: 0, across: -151 } }],
    };
    expect(faultsOf(space).sort()).toEqual(
      [
        'contradiction voids[0].bearers',
        'contradiction voids[0].bearers[0].along',
        'contradiction voids[0].bearers[0].most',
        'contradiction voids[0].bearers[1].along',
        'contradiction voids[0].drain',
        'contradiction voids[0].drain.height',
        'contradiction voids[0].drain.width',
        'contradiction voids[0].opening.at.across',
        'contradiction voids[0].opening.at.along',
        'contradiction voids[0].otherOpenings[0].at.across',
        'wrong-unit voids[0].bearers[1].width',
        'wrong-unit voids[0].otherOpenings[0].along',
      ].sort(),
    );
  });

  it.each([
    ['one bearer alone', { bearers: [{ along: 600, width: 40 }] }, ['contradiction voids[0].bearers']],
    [
      'a second opening without a first',
      { otherOpenings: [{ along: 300, across: 200 }] },
      ['contradiction voids[0].otherOpenings'],
    ],
    ['a drain anywhere else', { drain: { width: 9, height: 9, where: 'port' } }, ['out-of-range voids[0].drain.where']],
    [
      'a misspelt field in a bearer',
      { bearers: [{ along: 1, width: 1, mots: 3 }] },
      ['unknown-field voids[0].bearers[0].mots', 'contradiction voids[0].bearers'],
    ],
    ['a load for the length of nought', { mostPerMetre: 0 }, ['out-of-range voids[0].mostPerMetre']],
  ])('%s is faulted', (_, space, faults) => {
    expect(faultsOf(space)).toEqual(faults);
  });
});

describe('what a vessel lists now', () => {
  it('is read in degrees, and faulted where it is no list that she could lie at', () => {
    const read = readJobValue(jobOf({}, { vessel: { list: -1.5 } }));
    expect(read.ok && read.value.job.vessel).toEqual({ list: -1.5 });
    expect(faultsOf({}, { vessel: { list: 31 } })).toEqual(['out-of-range vessel.list']);
    expect(faultsOf({}, { vessel: { list: '1 to port' } })).toEqual(['wrong-type vessel.list']);
  });
});

describe('a job that needs a later kentledge', () => {
  it('is refused with that version named, whatever else it holds', () => {
    const read = readJobValue(jobOf({ notKnownYet: 1 }, { needs: '0.12.0', also: 2 }));
    expect(read.ok).toBe(false);
    if (read.ok) return;
    expect(read.faults).toHaveLength(1);
    expect(read.faults[0]).toMatchObject({ path: 'needs', code: 'newer-file' });
    expect(read.faults[0]!.remedy).toContain('0.12.0');
  });

  it('is read where it needs this one or an older one, and faulted where it names none', () => {
    expect(faultsOf({}, { needs: '0.0.9' })).toEqual([]);
    expect(faultsOf({}, { needs: 'soon' })).toEqual(['out-of-range needs']);
  });
});
