import { describe, expect, test } from 'vitest';
import { readDraft } from '../../server/form/draftRead.ts';
import { showForm } from '../../server/form/show.ts';
import { fieldsOf, sketchForm } from '../../server/form/sketchForm.ts';
import { readableParts, readJobValue } from '../../src/job/readJob.ts';
import { jobDoubts } from '../../src/plan/jobDoubts.ts';

/** Four bars of 25 mm square, 39.25 kg in all; its least bundle is 31 mm wide and 156 mm long. */
function aJob(space: object = {}, more: object = {}) {
  return {
    format: 'kentledge-job/1',
    name: 'Doubtful',
    pile: [{ lot: 'A', section: { shape: 'square', side: 25 }, length: 2000, count: 4 }],
    voids: [{ void: 'V1', length: 1100, width: 400, height: 250, ...space }],
    ...more,
  };
}

function told(space: object = {}, more: object = {}): string[] {
  const job = aJob(space, more);
  // What is doubtful is no fault.
  expect(readJobValue(job)).toMatchObject({ ok: true });
  return jobDoubts(readableParts(job)).map(({ path, text }) => `${path.replace('voids[0].', '')}: ${text}`);
}

const sides = (half: number) =>
  [0, 1100].map((along) => ({
    along,
    at: [
      { up: 0, from: -70, to: 70 },
      { up: 250, from: -half, to: half },
    ],
  }));

test('a lift limit from 25 kg on is asked about, of all bundles and of one void, but where none over that is allowed', () => {
  const asked = /^For one person\? Over 25 kg takes two people or a mechanical aid$/;
  const limits = (space: object, more: object) => told(space, more).map((text) => text.split(': '));
  expect(limits({ limit: 24.9 }, { bundle: { limit: 24 } })).toEqual([]);
  for (const limit of [25, 45]) {
    const [own, ...none] = limits({ limit }, {});
    expect([own?.[0], none]).toEqual(['limit', []]);
    expect(own?.[1]).toMatch(asked);
    expect(limits({}, { bundle: { limit } }).map(([path]) => path)).toEqual(['bundle.limit']);
  }
  expect(told({ limit: 45 }, { bundle: { limit: 45 }, lift: { forbidHeavy: true } })).toEqual([]);
});

test('a size that no small vessel has room for is told beside it, by the way its bars lie', () => {
  expect(told({ length: 30_000, width: 10_000, height: 5000 })).toEqual([]);
  const rest =
    ', and few vessels have 30 m of room that way. It is read in mm: is it in another unit, or a figure too long?';
  expect(told({ length: 100_000 })).toEqual([`length: This is 100 m${rest}`]);
  expect(told({ length: 100_000, width: 100_000, height: 100_000 }).map((text) => text.split(':')[0])).toEqual([
    'length',
    'width',
    'height',
  ]);
  const athwart = { axis: 'athwartships', length: 10_500, width: 29_000 };
  expect(told(athwart).map((text) => text.split(',')[0])).toEqual(['length: This is 10.5 m']);
  expect(told({ axis: 'either', length: 29_000, width: 29_000 })).toEqual([]);
});

test('readings wider than the width are told beside it', () => {
  expect(told({ stations: sides(200) })).toEqual([]);
  expect(told({ stations: sides(210) })).toEqual([
    'width: The stations read up to 420 mm from side to side, more than this width. They count, and the width is only drawn: is one of them a slip?',
  ]);
});

test('a tape that ran below the bottom is told beside its readings', () => {
  const batten = (down: number) => ({
    up: 250,
    readings: [
      { across: -190, down: 0 },
      { across: 0, down },
      { across: 190, down: 0 },
    ],
  });
  const stations = (down: number) => [0, 1100].map((along) => ({ along, batten: batten(along === 0 ? down : 250) }));
  expect(told({ stations: stations(250) })).toEqual([]);
  const [only, ...rest] = told({ stations: stations(260) });
  expect(rest).toEqual([]);
  expect(only).toMatch(/^stations\[0\]\.batten\.readings: .* ran 260 mm down from a batten 250 mm up/);
});

test('an opening that no bundle could pass is told at once', () => {
  expect(told({ opening: { along: 156, across: 31 } })).toEqual([]);
  expect(told({ opening: { along: 40, across: 30 } })).toEqual([
    'opening.across: No bundle of this pile is narrower than 31 mm: none passes here.',
  ]);
  expect(told({ opening: { along: 40, across: 300 } })[0]).toMatch(
    /^opening\.along: No bundle is shorter than 156 mm: none passes here unless it may go in end first\./,
  );
  expect(told({ opening: { along: 40, across: 300, endFirst: true } })).toEqual([]);
  expect(told({ opening: { along: 30, across: 300, endFirst: true } })[0]).toMatch(/^opening\.along: Even end first/);
  expect(told({ opening: { along: 156, across: 31 }, otherOpenings: [{ along: 300, across: 20 }] })[0]).toMatch(
    /^otherOpenings\[0\]\.across/,
  );
  expect(told({ axis: 'either', opening: { along: 31, across: 156 } })).toEqual([]);
});

test('the place of one of several openings is asked for where what it lets in end first may not get under the deck', () => {
  const wide = { along: 500, across: 300, endFirst: true };
  const both = (own: object, other: object, length = 1100) =>
    told({ length, height: 150, opening: own, otherOpenings: [other] }).map((text) => text.split(':')[0]);
  // Over the middle 800 mm of the 1100 lie from its far edge; bundles of 1000 mm and more come through the slot.
  expect(both(wide, wide)).toEqual(['opening.at.along', 'otherOpenings[0].at.along']);
  expect(both({ ...wide, at: { along: 250 } }, wide)).toEqual(['otherOpenings[0].at.along']);
  expect(both({ ...wide, at: { along: 250 } }, { ...wide, at: { along: 850 } })).toEqual([]);
  // Nothing long goes in end first: by the one, by the other laid flat, or for want of length.
  expect(both({ ...wide, endFirst: false }, { ...wide, endFirst: false })).toEqual([]);
  expect(both(wide, { ...wide, along: 1090 })).toEqual([]);
  expect(both({ ...wide, along: 60 }, { ...wide, along: 60 })).toEqual([]);
  expect(both(wide, wide, 520)).toEqual([]);
  // Of a single one the plan itself cautions.
  expect(told({ height: 150, opening: wide })).toEqual([]);
});

test('more ballast than the pile weighs, and a reach nearer than the method reckons with', () => {
  expect(told({}, { aims: { ballast: 39 } })).toEqual([]);
  expect(told({}, { aims: { ballast: 5000 } })).toEqual([
    'aims.ballast: The whole pile weighs 39 kg: there is no more to place.',
  ]);
  const least = "The method reckons with 250 mm at least: nobody's hands are nearer.";
  expect(told({ handling: { reach: 250 } })).toEqual([]);
  expect(told({ handling: { reach: 240 } })).toEqual([`handling.reach: ${least}`]);
  expect(told({ handling: { reach: 40 } })).toEqual([`handling.reach: Did you mean 40 cm, which is 400 mm? ${least}`]);
  expect(told({}, { lift: { legs: [{ leg: 'quay', reachEnd: 200 }] } })[0]).toMatch(/^lift\.legs\[0\]\.reachEnd/);
});

test('a doubt stands beside its field, which is unfolded, when the page is shown and while it is typed', () => {
  const job = aJob({ opening: { along: 40, across: 30 } });
  const form = showForm(job);
  const group = form.voids[0]?.more.find(({ title }) => title.startsWith('The opening'));
  expect(group?.open).toBe(true);
  const across = group?.fields.find(({ path }) => path === 'opening.across');
  expect(across?.doubt).toContain('31 mm');
  expect(fieldsOf(form).filter(({ doubt }) => doubt !== '')).toHaveLength(1);
  const { doubts } = sketchForm({ draft: job, lines: [0] }, new Map(), readDraft(job), '', 'metric');
  expect(doubts).toEqual({ 'voids[0].opening.across': across?.doubt });
});

test('more ballast than she may carry, and none stated where the pile weighs more than that', () => {
  const vessel = { displacement: 4000, displacementMost: 4030 };
  const lying = { keepOut: [{ what: 'old pig', along: [0, 100], across: [-50, 50], up: [0, 50], mass: 12 }] };
  expect(told({}, { vessel, aims: { ballast: 30 } })).toEqual([]);
  expect(told({}, { vessel, aims: { ballast: 31 } })).toEqual([
    'aims.ballast: She may carry only 30 kg more, by what she displaces now and at most.',
  ]);
  expect(told(lying, { vessel, aims: { ballast: 30 } })).toEqual([
    'aims.ballast: She may carry only 18 kg more, by what she displaces now and at most.',
  ]);
  expect(told({}, { vessel })).toEqual([
    'aims.ballast: She may carry only 30 kg more and the pile weighs 39 kg: state here how much is to be placed at most.',
  ]);
  expect(told({}, { vessel: { ...vessel, displacementMost: 4040 } })).toEqual([]);
  expect(told({}, { vessel: { ...vessel, displacementMost: 4000 }, aims: { ballast: 5 } })).toEqual([
    'aims.ballast: She may carry no more, by what she displaces now and at most.',
  ]);
});

test('a void told to lie where another one lies is told beside its place', () => {
  const box = { length: 1000, width: 400, height: 200 };
  const lies = (first: object, second: object, more: object = {}) => {
    const voids = [
      { void: 'V1', ...box, ...first },
      { void: 'V2', ...box, ...second },
    ];
    return told({}, { voids, ...more }).map((line) => line.replace(/^(\S+) .* where (\S+) lies\..*$/, '$1 $2'));
  };
  const at = (x: number, y = 0, z = 0.2) => ({ origin: { x, y, z } });
  expect(lies(at(4), at(4))).toEqual(['voids[1].origin.x: V1']);
  expect(lies(at(4), at(4.8))).toEqual([]);
  expect(lies(at(4), at(4.4))).toEqual(['voids[1].origin.x: V1']);
  expect(lies(at(4), at(4, 0.4))).toEqual([]);
  expect(lies(at(4), at(4, 0, 0.4))).toEqual([]);
  // Athwartships the length runs across her, from its port end.
  expect(lies(at(4), { axis: 'athwartships', ...at(4.2, -0.5) })).toEqual(['voids[1].origin.x: V1']);
  expect(lies(at(4), { axis: 'athwartships', ...at(3.75, -0.5) })).toEqual([]);
  // Sides of stations count, and not the width.
  const side = (from: number, to: number) => ({
    stations: [0, 1000].map((along) => ({
      along,
      at: [
        { up: 0, from, to },
        { up: 200, from, to },
      ],
    })),
  });
  expect(lies({ ...at(4), ...side(-200, -20) }, { ...at(4), ...side(20, 200) })).toEqual([]);
  // Where nobody said where voids lie, and nothing hangs on it, that is no doubt.
  expect(lies({}, {})).toEqual([]);
  expect(lies({}, {}, { vessel: { displacement: 8000 } })).toEqual(['voids[1].origin.x: V1']);
  expect(lies({}, {}, { aims: { centre: { x: [0, 1] } } })).toEqual(['voids[1].origin.x: V1']);
});

test('the place of a void that has none while others have is asked for, once for each', () => {
  const box = { length: 440, width: 400, height: 200, axis: 'athwartships' };
  const asked = (...origins: (object | undefined)[]) =>
    told({}, { voids: origins.map((origin, i) => ({ void: `V${i + 1}`, ...box, origin })) }).map((line) =>
      line.replace(/^(\S+): Where does it lie in her, .*\.$/, '$1 asked'),
    );
  const placed = { x: 4, y: -0.22, z: 0.3 };
  expect(asked(placed, undefined)).toEqual(['voids[1].origin.x asked']);
  expect(asked({ x: 0, y: 0, z: 0 }, placed, undefined)).toEqual(['origin.x asked', 'voids[2].origin.x asked']);
  // One figure that is not nought is a place, and where none is stated none is missed.
  expect(asked(placed, { x: 0, y: 0.5, z: 0 })).toEqual([]);
  expect(asked(undefined, undefined)).toEqual([]);
});

describe('a void athwartships whose port end is told to be on her middle line', () => {
  const place = (y: number, axis = 'athwartships') => ({ length: 440, axis, origin: { x: 7.4, y, z: 0.5 } });

  test('lies all to starboard: where its middle would be over hers is told', () => {
    expect(told(place(0))).toEqual([
      'origin.y: By this all of it lies to starboard of her middle line, for where bars lie athwartships it is the place of the port end. With its middle over hers that is -0.22 m, 0.22 m to port.',
    ]);
    expect(told({ length: 440, axis: 'athwartships' }, { vessel: { displacement: 4800 } })).toHaveLength(1);
  });

  test('is not asked about where it is placed otherwise, where places do not count, or with one to port beside it', () => {
    expect(told(place(-0.22))).toEqual([]);
    expect(told(place(0, 'fore-and-aft'))).toEqual([]);
    expect(told({ length: 440, axis: 'athwartships' })).toEqual([]);
    const both = [place(0), place(-0.44)].map((space, i) => ({ void: `V${i + 1}`, width: 400, height: 250, ...space }));
    expect(told({}, { voids: both })).toEqual([]);
  });
});
