/** What keeps other sites and other machines out: the host's name, the token of every form, and the page's policy. */
import { randomBytes, timingSafeEqual } from 'node:crypto';
import { networkInterfaces } from 'node:os';
import type { NextFunction, Request, RequestHandler, Response } from 'express';
import helmet from 'helmet';
import { Problem } from './problem.ts';
import type { Settings } from './store/store.ts';

/** Nothing inline, nothing from elsewhere, never in a frame. */
export function pagePolicy(): RequestHandler {
  return helmet({
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'none'"],
        scriptSrc: ["'self'"],
        styleSrc: ["'self'"],
        imgSrc: ["'self'", 'data:'],
        connectSrc: ["'self'"],
        formAction: ["'self'"],
        baseUri: ["'none'"],
        frameAncestors: ["'none'"],
      },
    },
    // Served in the clear on one's own machine: there is no certificate to insist on.
    strictTransportSecurity: false,
    referrerPolicy: { policy: 'same-origin' },
  });
}

/** The names under which a server that listens on `host` may be asked for. */
export function hostNames(host: string): ReadonlySet<string> {
  return new Set(['localhost', '127.0.0.1', '[::1]', written(host), ...(listensToAll(host) ? ownAddresses() : [])]);
}

/** True of a host, as a request names it, that leads to whichever machine it is opened on. */
export function isThisMachineOnly(host: string | undefined): boolean {
  return /^(localhost|127(\.\d+){3}|\[::1\])(:\d+)?$/i.test(host ?? '');
}

/** Hosts to open a server under that listens on `host`, this machine's own first. */
export function reachableHosts(host: string): string[] {
  if (!listensToAll(host)) return [written(host)];
  return [
    '127.0.0.1',
    ...ownAddresses().filter((address) => /^\d+(\.\d+){3}$/.test(address) && address !== '127.0.0.1'),
  ];
}

function listensToAll(host: string): boolean {
  return host === '0.0.0.0' || host === '::';
}

function ownAddresses(): string[] {
  return Object.values(networkInterfaces()).flatMap((addresses) =>
    (addresses ?? []).map(({ address }) => written(address)),
  );
}

/** An address as it stands in a URL. */
function written(host: string): string {
  return host.includes(':') && !host.startsWith('[') ? `[${host.toLowerCase()}]` : host.toLowerCase();
}

/** Refuses a request under another name: a page elsewhere whose name was pointed at this machine gets nothing. */
export function checkHost(names: ReadonlySet<string>): RequestHandler {
  return (request, _response, next) => {
    const host = /^(\[[0-9a-f:.]+\]|[^:]+)(:\d+)?$/i.exec(request.headers.host ?? '')?.[1]?.toLowerCase();
    if (host === undefined || !names.has(host)) throw new Problem('wrong-host');
    next();
  };
}

/** The token of every form of a data folder. It lasts, so that a form left open over a restart can still be saved. */
export function formToken(settings: Settings): string {
  const known = settings.get('formToken');
  if (known) return known;
  const token = randomBytes(24).toString('base64url');
  settings.set('formToken', token);
  return token;
}

/** Refuses posts that say they come from elsewhere. The token itself is asked for once the body was read. */
export function checkOrigin(request: Request, _response: Response, next: NextFunction): void {
  const { origin, 'sec-fetch-site': site } = request.headers;
  const reads = request.method === 'GET' || request.method === 'HEAD';
  if (reads) {
    next();
    return;
  }
  if (site !== undefined && site !== 'same-origin' && site !== 'none') throw new Problem('stale-form');
  if (origin !== undefined && origin !== 'null' && !sameHost(origin, request.headers.host))
    throw new Problem('stale-form');
  next();
}

/** Throws unless the posted form carries the token. */
export function checkToken(token: string, posted: string | undefined): void {
  const given = Buffer.from(posted ?? '');
  const wanted = Buffer.from(token);
  if (given.length !== wanted.length || !timingSafeEqual(given, wanted)) throw new Problem('stale-form');
}

function sameHost(origin: string, host: string | undefined): boolean {
  return URL.canParse(origin) && new URL(origin).host === host?.toLowerCase();
}
