/** What is printed on the drawing of how she floats; the other drawings' words are in `words.ts`. */

export const AFLOAT_WORDS = {
  title: 'How she floats, before and after',
  aft: 'after end',
  forward: 'forward end',
  change: (cm: number) =>
    Math.abs(cm) < 0.05 ? 'as before' : `${cm > 0 ? 'down' : 'up'} ${Math.abs(cm).toFixed(1)} cm`,
  marks: (before: number, cm: number) => `${before.toFixed(2)} to ${(before + cm / 100).toFixed(2)} m`,
  notToScale:
    'broken: the waterline before; solid: after. The outline is not hers and the change is drawn larger than it is.',
  inWords: (forward: string, aft: string) => `Forward end ${forward}, after end ${aft}.`,
} as const;
