import { expect, it } from 'vitest';
import { canonicalJson, jobDigest } from '../../src/job/digest.ts';

it('canonical JSON sorts keys at every level and holds no white space', () => {
  const value = { b: [{ z: 1, a: 'é ⚓' }, null, true], a: 1.5, c: undefined };
  expect(canonicalJson(value)).toBe('{"a":1.5,"b":[{"a":"é ⚓","z":1},null,true]}');
});

it('the digest does not depend on the order of the fields, and on everything else', () => {
  const digest = jobDigest({ a: 1, b: { c: 2, d: [1, 2] } });
  expect(jobDigest({ b: { d: [1, 2], c: 2 }, a: 1 })).toBe(digest);
  expect(jobDigest({ a: 1, b: { c: 2, d: [2, 1] } })).not.toBe(digest);
  expect(jobDigest({ a: 1, b: { c: 2, d: [1, 2], e: null } })).not.toBe(digest);
});

it('the digest of {} is the published one of the two letters', () => {
  expect(jobDigest({})).toBe('sha256:44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a');
});
