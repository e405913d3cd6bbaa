import fastifyHelmet from '@fastify/helmet';
import fastifyStatic from '@fastify/static';
import type { App } from './service.ts';

/**
 * Headers that keep other sites' scripts out of the page. Everything comes from the service itself, so nothing
 * else is allowed; on a workshop's network it is reached by plain http, so nothing is forced to https.
 */
export async function guardPage(app: App): Promise<void> {
  await app.register(fastifyHelmet, {
    strictTransportSecurity: false,
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'self'"],
        scriptSrc: ["'self'"],
        styleSrc: ["'self'"],
        imgSrc: ["'self'", 'data:', 'blob:'],
        objectSrc: ["'none'"],
        baseUri: ["'self'"],
        formAction: ["'self'"],
        frameAncestors: ["'self'"],
      },
    },
  });
}

/** Answers may hold a client's wall: no browser or proxy keeps them; the page and its parts may be asked about again. */
export function keepAnswersUnstored(app: App): void {
  app.addHook('onSend', async ({ url }, reply) => {
    if (url.startsWith('/api/')) reply.header('cache-control', 'no-store');
  });
}

/** Serves the built page from a folder, packed where the build did that; browsers ask each time whether it has changed. */
export async function servePage(app: App, folder: string): Promise<void> {
  await app.register(fastifyStatic, {
    root: folder,
    cacheControl: true,
    maxAge: 0,
    preCompressed: true,
  });
}
