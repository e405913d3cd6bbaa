import { timingSafeEqual } from 'node:crypto';
import { isIP } from 'node:net';
import fastifyCookie from '@fastify/cookie';
import type { FastifyRequest } from 'fastify';
import { ProblemError } from './problem.ts';
import type { App } from './service.ts';

/** Who may call the service. */
export interface Callers {
  /** Names the service goes by; addresses in numbers are never turned away, since no other site can own them. */
  readonly names: readonly string[];
  /** What a caller from the network has to show; null where only this computer can call. */
  readonly token: string | null;
}

/** Callers of a service that listens on this computer only. */
export const ownComputer: Callers = { names: ['localhost'], token: null };

const cookieName = 'slotwatt-token';
const oneYear_s = 365 * 24 * 3600;

/** The name in a Host header, without its port and without the brackets of an IPv6 address. */
function nameOf(host: string): string {
  const ending = host.startsWith('[') ? host.indexOf(']') : host.indexOf(':');
  const name = ending < 0 ? host : host.slice(0, ending);
  return name.replace('[', '').toLowerCase();
}

/** Another name that leads to this computer lets a foreign page read the answers as if they were its own. */
function checkName({ headers }: FastifyRequest, names: readonly string[]): void {
  const name = nameOf(headers.host ?? '');
  if (isIP(name) !== 0 || names.includes(name)) return;
  throw new ProblemError(
    'foreign-name',
    `The service does not go by the name "${name.slice(0, 100)}": use the address it printed when it started, or name it in SLOTWATT_NAMES.`,
  );
}

const isPage = ({ method, url }: FastifyRequest): boolean =>
  (method === 'GET' || method === 'HEAD') && !url.startsWith('/api/');

/** A page of another site may link to this one and nothing else. */
function checkSite(request: FastifyRequest): void {
  const { origin, host } = request.headers;
  const site = request.headers['sec-fetch-site'];
  const isForeign =
    (origin !== undefined && origin !== `http://${host}` && origin !== `https://${host}`) ||
    site === 'cross-site' ||
    site === 'same-site';
  if (!isForeign || isPage(request)) return;
  throw new ProblemError(
    'foreign-page',
    'A page of another site asked for this, and only the service’s own page may: open the service at the address it printed when it started.',
  );
}

function matches(shown: string | undefined, token: string): boolean {
  const [a, b] = [Buffer.from(shown ?? ''), Buffer.from(token)];
  return a.length === b.length && timingSafeEqual(a, b);
}

function shownToken(request: FastifyRequest): string | undefined {
  const [scheme, credential] = (request.headers.authorization ?? '').split(' ');
  return scheme === 'Bearer' ? credential : request.cookies[cookieName];
}

/** Takes the token from the address of the page once and keeps it in the browser. */
function askForToken(app: App, token: string): void {
  app.addHook('onRequest', async (request, reply) => {
    const given = new URL(request.url, 'http://service').searchParams.get('token') ?? undefined;
    if (isPage(request) && matches(given, token)) {
      reply.setCookie(cookieName, token, { path: '/', httpOnly: true, sameSite: 'lax', maxAge: oneYear_s });
      return reply.redirect('/');
    }
    if (matches(shownToken(request), token)) return;
    throw new ProblemError(
      'token-missing',
      'This service is reached over a network and asks for its token: open the address that was printed when it started, or send the token as "Authorization: Bearer ...".',
    );
  });
}

/**
 * Turns callers away before anything is read: those that use a name that is not the service's, pages of other sites,
 * and, where the service listens to a network, those without its token. It must stand before the routes.
 */
export async function guardCallers(app: App, { names, token }: Callers): Promise<void> {
  await app.register(fastifyCookie);
  app.addHook('onRequest', async (request) => {
    checkName(request, names);
    checkSite(request);
  });
  if (token !== null) askForToken(app, token);
}
