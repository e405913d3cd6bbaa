import { z } from 'zod';
import {
  boards,
  cableCatalogue,
  dimmerCatalogue,
  driverCatalogue,
  finishes,
  jobJsonSchema,
  profileCatalogue,
  profileCoverCatalogue,
  slotCovers,
  stripCatalogue,
} from '../../src/index.ts';
import { catalogue } from '../contract/catalogue.ts';
import { responses } from '../responses.ts';
import type { App } from '../service.ts';

const choices = {
  strips: stripCatalogue,
  drivers: driverCatalogue,
  dimmers: dimmerCatalogue,
  cables: cableCatalogue,
  profiles: profileCatalogue,
  profileCovers: profileCoverCatalogue,
  boards,
  finishes,
  slotCovers,
};

const jsonSchema = z
  .looseObject({ $schema: z.string() })
  .meta({ title: 'JSON Schema of the job', description: 'JSON Schema, draft 2020-12.' });

/** GET /api/catalogue and /api/job-schema: what a job may choose from, and what it must look like. */
export function catalogueRoutes(app: App): void {
  app.get(
    '/api/catalogue',
    {
      schema: {
        tags: ['jobs'],
        summary: 'What a job may choose from',
        response: responses({ 200: catalogue }, []),
      },
    },
    async () => choices,
  );
  app.get(
    '/api/job-schema',
    {
      schema: {
        tags: ['jobs'],
        summary: 'JSON Schema of the job',
        response: responses({ 200: jsonSchema }, []),
      },
    },
    async () => jobJsonSchema(),
  );
}
