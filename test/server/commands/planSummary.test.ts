import { expect, test } from 'vitest';
import { planLines } from '../../../server/commands/planSummary.ts';
import { trialPair } from '../../plan/trialPlan.ts';

test('what is said of several lots or voids in the same words is one line that names them', () => {
  const { job, plan } = trialPair();
  const paint = { code: 'lead-paint', text: 'Treat it as lead.' };
  const reading = { code: 'doubtful-reading', text: 'Measure again.' };
  const cautions = [
    { ...paint, about: 'pile lot A' },
    { ...reading, about: 'void V1' },
    { ...paint, about: 'pile lot C' },
    { code: 'lead-paint', about: 'pile lot D', text: 'It may be lead.' },
    ...['V2', 'V3'].map((mark) => ({ ...reading, about: `void ${mark}` })),
  ];
  const lines = planLines(job, { ...plan, cautions });
  const from = lines.indexOf('Cautions:') + 1;
  expect(lines.slice(from, lines.indexOf('', from))).toEqual([
    '  - Treat it as lead. [lead-paint, pile lots A, C]',
    '  - Measure again. [doubtful-reading, voids V1 to V3]',
    '  - It may be lead. [lead-paint, pile lot D]',
  ]);
});
