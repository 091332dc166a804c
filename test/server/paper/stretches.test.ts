import { describe, expect, test } from 'vitest';
import { stretchesOf } from '../../../server/paper/letters.ts';

describe('a line with letters that are read from right to left', () => {
  test.each([
    ['V1-10', ['V1-10']],
    ['שלום-10', ['שלום', '-10']],
    ['12 שלום', ['12 ', 'שלום']],
    ['ברזל-02 to ברזל-12', ['ברזל', '-02 to ', 'ברזל', '-12']],
    ['תא התורן: 75.4 kg', ['התורן', ' ', 'תא', ': 75.4 kg']],
    ['', ['']],
  ])('%j keeps its figures in order', (line, stretches) => {
    expect(stretchesOf(line)).toEqual(stretches);
  });
});
