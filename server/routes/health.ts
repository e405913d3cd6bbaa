import { engineVersion } from '../../src/index.ts';
import { health } from '../contract/health.ts';
import { responses } from '../responses.ts';
import type { App } from '../service.ts';

/** GET /api/health: the service is up, and with which engine. */
export function healthRoutes(app: App): void {
  app.get(
    '/api/health',
    {
      schema: {
        tags: ['service'],
        summary: 'Whether the service is up',
        response: responses({ 200: health }, []),
      },
    },
    async () => ({ status: 'up', engine: engineVersion }),
  );
}
