import { describe, expect, it } from 'vitest';
import { makePattern } from '../../src/cut/columns.ts';
import { scaleProblem } from '../../src/cut/scale.ts';
import { tidyPlan } from '../../src/cut/tidy.ts';

const stock = [{ length: 1000, spans: [{ from: 0, to: 1000 }], count: null, price: 1 }];

function plan(pieces: { length: number; count: number }[], bars: number[][]) {
  const scaled = scaleProblem({ stock, pieces, kerf: 0 });
  const capacity = scaled.stocks[0]!.capacities[0]!;
  const patterns = bars.map((lengths) => {
    const rows = [...new Set(lengths)].map((length) => pieces.findIndex((piece) => piece.length === length));
    const counts = rows.map((row) => lengths.filter((length) => length === pieces[row]!.length).length);
    const used = rows.reduce((sum, row, k) => sum + scaled.sizes[row]! * counts[k]!, 0);
    return makePattern(scaled, 0, [{ rows, counts, left: capacity - used, value: 0 }]);
  });
  const unit = 1000 / capacity;
  return {
    scaled,
    patterns,
    lefts: (of: typeof patterns) => of.map(({ fills }) => fills[0]!.left * unit).sort((a, b) => a - b),
  };
}

describe('tidying a plan', () => {
  it('gathers what is left over into one long remainder', () => {
    const { scaled, patterns, lefts } = plan(
      [
        { length: 500, count: 1 },
        { length: 300, count: 2 },
        { length: 200, count: 1 },
      ],
      [
        [500, 300],
        [300, 200],
      ],
    );
    expect(lefts(patterns)).toEqual([200, 500]);
    expect(lefts(tidyPlan(scaled, patterns))).toEqual([0, 700]);
  });

  it('makes bars alike where it can', () => {
    const { scaled, patterns } = plan(
      [
        { length: 500, count: 2 },
        { length: 400, count: 2 },
      ],
      [
        [500, 500],
        [400, 400],
      ],
    );
    const tidied = tidyPlan(scaled, patterns);
    expect(tidied).toHaveLength(2);
    expect(tidied[0]!.rows).toEqual(tidied[1]!.rows);
  });
});
