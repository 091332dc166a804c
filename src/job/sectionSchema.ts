/** What a section of steel is stated by, sizes in mm: what is reckoned of it has no need of the library of schemas, and loads without it. */
import { z } from 'zod';

const size = z.number().positive().max(1000).describe('mm');

export const sectionSchema = z.discriminatedUnion('shape', [
  z.strictObject({ shape: z.literal('round'), diameter: size }),
  z.strictObject({ shape: z.literal('square'), side: size }),
  z.strictObject({ shape: z.literal('flat'), width: size, thickness: size }),
  z.strictObject({ shape: z.literal('hexagon'), acrossFlats: size }),
  z.strictObject({ shape: z.literal('deformed'), nominal: size.describe('diameter by which it is sold, mm') }),
  z.strictObject({ shape: z.literal('angle'), leg: size, otherLeg: size.optional(), thickness: size }),
  z.strictObject({ shape: z.literal('tube'), diameter: size, wall: size }),
  z.strictObject({ shape: z.literal('box'), width: size, height: size, wall: size }),
  z.strictObject({ shape: z.literal('other'), width: size, height: size }),
]);
