/** A number that is known, or estimated between two limits; what follows from estimates carries their range along. */

export interface Range {
  low: number;
  likely: number;
  high: number;
}

export function known(value: number): Range {
  return { low: value, likely: value, high: value };
}

export function isKnown(range: Range): boolean {
  return range.low === range.high;
}

/** Its every limit through `change`, which must rise or fall throughout. */
export function mapRange(range: Range, change: (value: number) => number): Range {
  const [a, b] = [change(range.low), change(range.high)];
  return { low: Math.min(a, b), likely: change(range.likely), high: Math.max(a, b) };
}

/**
 * What `answer` gives over all corners of `inputs`: the least, the greatest, and at the likely values. Exact where the
 * answer rises or falls throughout with each input; the number of corners doubles with each input that is not known.
 */
export function overCorners<Name extends string>(
  inputs: Record<Name, Range>,
  answer: (values: Record<Name, number>) => number,
): Range {
  const names = Object.keys(inputs) as Name[];
  const likely = Object.fromEntries(names.map((name) => [name, inputs[name].likely])) as Record<Name, number>;
  let corners: Record<Name, number>[] = [likely];
  for (const name of names) {
    if (isKnown(inputs[name])) continue;
    const { low, high } = inputs[name];
    corners = corners.flatMap((corner) => [
      { ...corner, [name]: low },
      { ...corner, [name]: high },
    ]);
  }
  const middle = answer(likely);
  const values = corners.map(answer);
  return { low: Math.min(middle, ...values), likely: middle, high: Math.max(middle, ...values) };
}
