/** Hold-downs that are refused, with their reasons. */
import { describe, expect, test } from 'vitest';
import type { HoldDown } from '../../src/job/holdDown.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { BAR, type HoldInput, jobWith } from './heldJob.ts';

describe('what is refused, with its reason', () => {
  const strap = { kind: 'over', count: 1, lashingCapacity: 2.5, angle: 60 } as const;
  const cases: [string, HoldInput | Record<string, unknown>, string, RegExp][] = [
    [
      'newtons for kilonewtons',
      { straps: [{ ...strap, lashingCapacity: 2500 }] },
      'straps[0].lashingCapacity',
      /Did you mean 2\.5/,
    ],
    [
      'a breaking load entered as the lashing capacity',
      { straps: [{ ...strap, lashingCapacity: 5, breakingLoad: 5 }] },
      'straps[0].lashingCapacity',
      /half the breaking load/,
    ],
    ['a tension over the capacity', { straps: [{ ...strap, tension: 3 }] }, 'straps[0].tension', /STF/],
    ['a strap that lies flat', { straps: [{ ...strap, angle: 0 }] }, 'straps[0].angle', /.+/],
    ['a strap at 90°', { straps: [{ ...strap, angle: 90 }] }, 'straps[0].angle', /.+/],
    [
      'a bolt of no known grade',
      { bars: [{ ...BAR, bolts: { ...BAR.bolts, grade: 'strong' } }] },
      'bars[0].bolts.grade',
      /8\.8/,
    ],
    [
      'a sole board as what holds',
      { blocked: { aft: { by: 'the sole boards', carries: 2 } } },
      'blocked.aft.by',
      /sole board holds nothing/,
    ],
    ['a lighter load without a reason', { loads: { across: 1 } }, 'loads.reason', /reason/],
    ['more room than is kept clear', { room: 45 }, 'room', /45 mm above the stow/],
    [
      'a bar across that is higher than what is kept clear',
      { bars: [{ ...BAR, onEdge: true }] },
      'bars[0].width',
      /stands 40 mm high/,
    ],
  ];

  test.each(cases)('%s', (_, holdDown, path, words) => {
    const read = readJobValue(jobWith(holdDown as HoldInput));
    if (read.ok) throw new Error('not refused');
    const fault = read.faults.find((one) => one.path === `voids[0].holdDown.${path}`);
    expect(fault, JSON.stringify(read.faults)).toBeDefined();
    expect(`${fault!.message} ${fault!.remedy}`).toMatch(words);
  });

  test('a bar has room under a keep-out that goes from side to side and reaches the top', () => {
    const job = jobWith({ bars: [{ ...BAR, onEdge: true }] });
    const keepOut = (across: [number, number], up: [number, number]) => ({
      ...job,
      voids: [
        {
          ...job.voids[0]!,
          keepOut: [{ what: 'place of the bar', along: [400, 460] as [number, number], across, up }],
        },
      ],
    });
    expect(readJobValue(keepOut([-150, 150], [100, 150])).ok).toBe(true);
    expect(readJobValue(keepOut([-150, 150], [120, 150])).ok).toBe(false);
    expect(readJobValue(keepOut([-20, 20], [100, 150])).ok).toBe(false);
  });

  test('friction over any dry figure is refused', () => {
    const tooMuch: Partial<HoldDown> = { friction: 0.9 };
    expect(readJobValue(jobWith(tooMuch as HoldInput)).ok).toBe(false);
  });
});
