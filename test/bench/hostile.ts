/** Requests that no honest browser sends: oversized, truncated, of wrong types, with tricks in paths, from elsewhere. */
import { request as open } from 'node:http';
import { type Dice, throwDice } from './dice.ts';

export interface Hostile {
  what: string;
  method: string;
  path: string;
  headers: Record<string, string>;
  body: Buffer | string;
}

export interface Answer {
  status: number;
  body: string;
}

/** `count` hostile requests against a server that has job `job` and plan `plan`; `token` is that of its forms. */
export function hostileRequests(
  count: number,
  seed: number,
  { job, plan, token }: { job: number; plan: number; token: string },
): Hostile[] {
  const dice = throwDice(seed);
  const form = (fields: Record<string, string>): string => new URLSearchParams({ token, ...fields }).toString();
  const families: (() => Hostile)[] = [
    () => posted('oversized form', `/jobs/${job}`, `${form({ name: 'x' })}&note=${'y'.repeat(5_300_000)}`),
    () => posted('too many fields', `/jobs/${job}`, `${form({})}${'&a=1'.repeat(70_000)}`),
    () =>
      posted(
        'truncated form',
        `/jobs/${job}`,
        form({ name: 'é%', 'pile[0].length': '%E0%A4%A' }).slice(0, dice.whole(5, 60)),
      ),
    () => posted('misshapen escapes', `/jobs/${job}`, `token=${token}&name=%E0%A4%A&%ff%fe=%c3%28&revision=%00`),
    () =>
      posted(
        'wrong types',
        `/jobs/${job}`,
        form({
          revision: dice.pick(['NaN', '-1', '1e99', '', 'null', '[]', '9'.repeat(400)]),
          'pile[0].length': dice.pick(['null', '[]', '{}', 'NaN', '-0', '1e400']),
          'voids[0].keepOut[0].along': '{}',
        }),
      ),
    () =>
      posted(
        'names of objects',
        `/jobs/${job}`,
        `${form({})}&__proto__[x]=1&constructor=1&toString=1&pile[0].__proto__=1&voids[-1].void=x&pile[9999999].lot=x`,
      ),
    () =>
      posted(
        'row tricks',
        `/jobs/${job}`,
        form({
          revision: '1',
          do: dice.pick([
            'remove __proto__',
            'copy pile[99999]',
            'add constructor',
            'drop ..',
            'shape pile[0]',
            'unshape x',
            'burn',
            'remove voids[0].stations[7]',
            'copy voids',
            'add pile[0].section',
          ]),
        }),
      ),
    () =>
      posted(
        'markup in names',
        '/jobs',
        form({
          name: dice.pick([
            '<script>alert(1)</script>',
            '"><img src=x onerror=alert(1)>',
            "'-alert(1)-'",
            '<%= 7*7 %>',
            '{{7*7}}',
            '\u0000\u202e\ud800',
            '../../etc/passwd',
          ]),
        }),
      ),
    () =>
      posted(
        'without a token',
        dice.pick([`/jobs/${job}/delete`, `/jobs/${job}`, '/jobs', `/jobs/${job}/stop`]),
        'name=x',
      ),
    () => posted('token of another', `/jobs/${job}/delete`, `token=${'A'.repeat(dice.whole(0, 64))}`),
    () => ({
      ...posted('from another site', `/jobs/${job}/delete`, form({})),
      headers: {
        'content-type': FORM,
        ...dice.pick([
          { origin: 'http://elsewhere.example' },
          { 'sec-fetch-site': 'cross-site' },
          { origin: 'null', 'sec-fetch-site': 'cross-site' },
        ]),
      },
    }),
    () => ({
      ...posted('JSON for a form', `/jobs/${job}`, '{"token":{"$gt":""}}'),
      headers: { 'content-type': 'application/json' },
    }),
    () => ({
      ...posted('unknown encoding', `/jobs/${job}`, form({})),
      headers: { 'content-type': FORM, 'content-encoding': dice.pick(['gzip', 'zstd', 'br']) },
    }),
    () => ({
      ...posted('unknown charset', `/jobs/${job}`, form({})),
      headers: { 'content-type': `${FORM}; charset=${dice.pick(['utf-7', 'x', 'utf-16'])}` },
    }),
    () => upload(dice, token, '{"format":"kentledge-job/1","name":', 'truncated job file'),
    () => upload(dice, token, `${'['.repeat(200_000)}`, 'deep job file'),
    () => upload(dice, token, `{"format":"kentledge-job/1","name":${'['.repeat(40)}${']'.repeat(40)}}`, 'deep name'),
    () => upload(dice, token, `{"format":"kentledge-job/1","pile":[${'{},'.repeat(20_000)}{}]}`, 'too many lots'),
    () =>
      upload(
        dice,
        token,
        `{"__proto__":{"x":1},"constructor":1,"pile":{"length":-1},"voids":"${'v'.repeat(100)}"}`,
        'job of wrong types',
      ),
    () =>
      upload(
        dice,
        token,
        Buffer.from([0xff, 0xfe, 0x00, 0xd8, ...Array.from({ length: 64 }, () => dice.whole(0, 255))]),
        'bytes for a job file',
      ),
    () => upload(dice, token, 'x'.repeat(5_400_000), 'oversized file'),
    () => ({
      ...upload(dice, token, '{}', 'truncated upload'),
      body: '--edge\r\nContent-Disposition: form-data; name="file"; filename="a.json"\r\n\r\n{',
    }),
    () => ({
      ...upload(dice, token, '{}', 'upload without an edge'),
      headers: { 'content-type': 'multipart/form-data' },
    }),
    () =>
      got(
        'path tricks',
        dice.pick([
          '/assets/../../package.json',
          '/assets/..%2f..%2fpackage.json',
          '/assets/%2e%2e/%2e%2e/server/app.ts',
          '/assets/....//....//etc/passwd',
          '/assets/%00',
          '/assets/page.ts%00.css',
          '//etc/passwd',
          '/%ff',
          '/%E0%A4%A',
          '/assets\\..\\..\\package.json',
        ]),
      ),
    () =>
      got(
        'numbers that are none',
        dice.pick([
          '/jobs/NaN',
          '/jobs/-1',
          '/jobs/1e3',
          `/jobs/${'9'.repeat(300)}`,
          '/jobs/0x1',
          '/plans/1%00',
          '/plans/1;drop',
          "/plans/1'--",
          '/jobs/%3Cscript%3E',
          `/plans/${plan}/papers/..%2f..%2fjobs`,
          `/plans/${plan}/papers/none.pdf`,
          `/plans/${plan}/beside/x`,
          `/plans/${plan}/stops/1`,
        ]),
      ),
    () =>
      got(
        'bundles that are none',
        `/b/${plan}/${encodeURIComponent(dice.pick(['<script>', "V1'--", '..', '\u0000', 'V1-01 ', '%', 'x'.repeat(5000)]))}`,
      ),
    () =>
      got(
        'odd questions',
        `/plans/${plan}?out=${dice.pick(['V1.-5', 'V1.99999', '.', '%00.1', 'a&out=b', '<b>.3', '[].2', '%ff.1'])}&lot[]=1&lot[x]=2`,
      ),
    () => got('long address', `/${'a'.repeat(dice.whole(2000, 9000))}`),
    () => ({
      ...got('another method', `/jobs/${job}`),
      method: dice.pick(['PUT', 'DELETE', 'PATCH', 'OPTIONS', 'TRACE', 'PROPFIND']),
    }),
    () => ({
      ...got('another host', '/'),
      headers: {
        host: dice.pick([
          'elsewhere.example',
          '127.0.0.1.elsewhere.example',
          'localhost@elsewhere.example',
          '[::1',
          '0x7f000001',
        ]),
      },
    }),
  ];
  return Array.from({ length: count }, (_, n) => (families[n % families.length] as () => Hostile)());
}

const FORM = 'application/x-www-form-urlencoded';

function posted(what: string, path: string, body: string): Hostile {
  return { what, method: 'POST', path, headers: { 'content-type': FORM }, body };
}

function got(what: string, path: string): Hostile {
  return { what, method: 'GET', path, headers: {}, body: '' };
}

function upload(dice: Dice, token: string, content: Buffer | string, what: string): Hostile {
  const name = dice.pick(['job.json', '../../job.json', '"><script>.json', 'x'.repeat(300)]);
  const head = `--edge\r\nContent-Disposition: form-data; name="token"\r\n\r\n${token}\r\n--edge\r\nContent-Disposition: form-data; name="file"; filename="${name}"\r\nContent-Type: application/json\r\n\r\n`;
  const body = Buffer.concat([Buffer.from(head), Buffer.from(content), Buffer.from('\r\n--edge--\r\n')]);
  return {
    what,
    method: 'POST',
    path: '/jobs/bring',
    headers: { 'content-type': 'multipart/form-data; boundary=edge' },
    body,
  };
}

/** Sends a request as it is, without the tidying that `fetch` does. A connection that is cut is status 0. */
export function send(address: string, hostile: Hostile): Promise<Answer> {
  const { hostname, port } = new URL(address);
  return new Promise((resolve) => {
    const request = open(
      {
        hostname,
        port,
        path: hostile.path,
        method: hostile.method,
        headers: { ...hostile.headers, 'content-length': Buffer.byteLength(hostile.body) },
        insecureHTTPParser: true,
      },
      (response) => {
        const chunks: Buffer[] = [];
        response.on('data', (chunk: Buffer) => chunks.push(chunk));
        response.on('end', () =>
          resolve({ status: response.statusCode ?? 0, body: Buffer.concat(chunks).toString('utf8') }),
        );
        response.on('error', () => resolve({ status: response.statusCode ?? 0, body: '' }));
      },
    );
    request.on('error', (error) => resolve({ status: 0, body: error.message }));
    request.end(hostile.body);
  });
}

/** What is wrong with an answer to a hostile request; null where it is as it should be. */
export function findWrong({ status, body }: Answer): string | null {
  if (status >= 500) return `status ${status}`;
  if (status === 0) return `no answer: ${body}`;
  if (/\n\s+at .*:\d+:\d+|node_modules|server\/|\/work\//.test(body)) return 'a stack trace or a path of the server';
  if (/<script>alert|<img src=x/.test(body)) return 'markup that was not escaped';
  return null;
}
