import type { FastifyReply, FastifyRequest } from 'fastify';
import { sendProblem } from './faults.ts';
import { ProblemError } from './problem.ts';
import type { App } from './service.ts';

interface Address {
  readonly pattern: RegExp;
  readonly methods: Set<string>;
}

const escaped = (text: string): string => text.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** The pattern of a route's address: `:name` stands for one part, or for what comes before an ending. */
function patternOf(url: string): RegExp {
  const parts = url.split(/(:[A-Za-z]+)/).map((part) => (part.startsWith(':') ? '[^/]+' : escaped(part)));
  return new RegExp(`^${parts.join('')}$`);
}

function wrongMethod(request: FastifyRequest, path: string, methods: readonly string[]): ProblemError {
  const allow = methods.join(', ');
  return new ProblemError('wrong-method', `${path} does not take ${request.method}: use ${allow}.`, {
    headers: { allow },
  });
}

/**
 * Answers what no route takes: 405 with the methods that an address does take, 404 otherwise. It must stand before
 * the routes, which it notes down as they come.
 */
export function answerUnknownRoutes(app: App): void {
  const addresses = new Map<string, Address>();
  app.addHook('onRoute', ({ url, method }) => {
    if (url.includes('*')) return;
    const address = addresses.get(url) ?? { pattern: patternOf(url), methods: new Set() };
    for (const name of [method].flat()) address.methods.add(name);
    addresses.set(url, address);
  });
  app.setNotFoundHandler((request: FastifyRequest, reply: FastifyReply) => {
    const path = request.url.split('?')[0]!;
    const known = [...addresses.values()].filter(({ pattern }) => pattern.test(path));
    const methods = [...new Set(known.flatMap((address) => [...address.methods]))].sort();
    if (methods.length > 0 && !methods.includes(request.method)) {
      return sendProblem(wrongMethod(request, path, methods), request, reply);
    }
    const sentence =
      path === '/'
        ? 'The page has not been built: run npm run build, then start the service again. /api/openapi.json lists every address of the service.'
        : `There is nothing at ${path}: the page is at /, and /api/openapi.json lists every address of the service.`;
    return sendProblem(new ProblemError('not-found', sentence), request, reply);
  });
}
