/** What is printed on the drawing of a person lifting; the other drawings' words are in `words.ts`. */
import type { Posture } from '../lift/equation.ts';

export const PERSON_WORDS = {
  title: (name: string) => `Lifting into ${name}`,
  reach: (mm: string) => `reach ${mm}`,
  reachEnd: (mm: string) => `at the end ${mm}`,
  start: (mm: string) => `start ${mm}`,
  end: (mm: string) => `end ${mm}`,
  ground: 'ground stood on',
  opening: (mm: string) => `opening ${mm}`,
  voidWide: (mm: string) => `void ${mm} wide`,
  beyond: 'further than these arms come',
  posture: { standing: 'standing', kneeling: 'kneeling', seated: 'seated' } satisfies Record<Posture, string>,
  hands: (count: number) => (count === 1 ? 'one hand' : 'two hands'),
  inWords: (posture: string, hands: string, reach: string, start: string, end: string) =>
    `Seen from the side, a person ${posture}, with ${hands}: the hands ${reach} forward of the ankles, from ${start} above the ground stood on to ${end}.`,
} as const;
