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
  listTitle: 'What she lists, before and after, seen from aft',
  port: 'port',
  starboard: 'starboard',
  list: (degrees: number) =>
    Math.abs(degrees) < 0.05 ? 'no list' : `${Math.abs(degrees).toFixed(1)}° to ${degrees < 0 ? 'port' : 'starboard'}`,
  before: (list: string) => `before: ${list}`,
  after: (list: string) => `after: ${list}`,
  listNotToScale: 'seen from aft; broken: before; solid: after. The outline is not hers, the angles are drawn larger.',
  listInWords: (before: string, after: string) => `Before: ${before}. After: ${after}.`,
} as const;
