/** Bodies of uploads that can not be read, and what is no fault of theirs. */
import { once } from 'node:events';
import { connect } from 'node:net';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { problemOf } from '../../server/problem.ts';
import { openWorld, type World } from './world.ts';

let world: World;
beforeEach(async () => {
  world = await openWorld();
});
afterEach(() => world.close());

const PART = '--edge\r\nContent-Disposition: form-data; name="file"; filename="job.json"\r\n\r\n{"name": "half';

test.each([
  ['that says no boundary', 'multipart/form-data', '{}'],
  ['of another multipart kind', 'multipart/mixed; boundary=edge', PART],
  ['that breaks off', 'multipart/form-data; boundary=edge', PART],
  ['whose part has no proper head', 'multipart/form-data; boundary=edge', '--edge\r\nno head at all\r\n\r\n'],
])('a body %s is told as one that can not be read', async (_, type, body) => {
  const answer = await world.get('/jobs/bring', { method: 'POST', headers: { 'content-type': type }, body });
  expect(answer.status).toBe(400);
  expect(await answer.text()).toContain('The request could not be read');
});

test('an upload whose sender goes away is no defect', async () => {
  const socket = connect(Number(new URL(world.address).port), '127.0.0.1');
  await once(socket, 'connect');
  const head = 'POST /jobs/bring HTTP/1.1\r\nHost: localhost\r\nContent-Length: 9999';
  socket.write(`${head}\r\nContent-Type: multipart/form-data; boundary=edge\r\n\r\n${PART}`);
  await new Promise((resolve) => setTimeout(resolve, 100));
  socket.destroy();
  await vi.waitFor(() => expect(world.log.length).toBeGreaterThan(0));
  await new Promise((resolve) => setTimeout(resolve, 100));
  expect(world.log.filter(({ what }) => what === 'defect')).toEqual([]);
});

test('a defect of our own that speaks of a boundary is told as one', () => {
  expect(problemOf(new Error('The boundary of void V1 is not closed')).code).toBe('defect');
  expect(problemOf(new TypeError('multipart is not a function')).code).toBe('defect');
});
