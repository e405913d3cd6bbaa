import fastifySwagger from '@fastify/swagger';
import { jsonSchemaTransform, jsonSchemaTransformObject } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { responses } from './responses.ts';
import type { App } from './service.ts';

const document = z.looseObject({ openapi: z.string() }).meta({ title: 'OpenAPI document' });

type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/** Puts the unit of a quantity into its description, where people and programs that draw tables look for it. */
function withUnits(node: Json): Json {
  if (Array.isArray(node)) return node.map(withUnits);
  if (typeof node !== 'object' || node === null) return node;
  const entries = Object.entries(node).map(([key, value]) => [key, withUnits(value)] as const);
  const plain: { [key: string]: Json } = Object.fromEntries(entries);
  if (typeof plain.unit !== 'string' || typeof plain.title !== 'string') return plain;
  const unit = plain.unit === '' ? '' : `In ${plain.unit}.`;
  const why = typeof plain.description === 'string' ? `Range: ${plain.description}.` : '';
  return { ...plain, description: [unit, why].filter((text) => text !== '').join(' ') };
}

/** Prepares the description of the service; it must stand before the routes, which it notes down as they come. */
export async function describeService(app: App): Promise<void> {
  await app.register(fastifySwagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'Slotwatt',
        version: '1',
        description:
          'Sizes LED strip, feeds, cables, drivers, heat and light of slotted timber panels. A design aid: fixed wiring and everything on the mains side belong to a licensed electrician under the local wiring rules. Errors are problem details after RFC 9457.',
      },
      tags: [
        { name: 'sizing', description: 'Questions about a job; nothing is written down' },
        { name: 'asked', description: 'Questions asked the other way round; nothing is written down' },
        { name: 'jobs', description: 'What a job looks like and may choose from' },
        { name: 'kept jobs', description: 'The workshop’s jobs on disk' },
        {
          name: 'own products',
          description: 'Strips, drivers, dimmers, cables, profiles and covers of the workshop’s own',
        },
        { name: 'revisions', description: 'What was issued, frozen' },
        { name: 'papers', description: 'The hand-over as PDF, SVG and DXF, and slots from a drawing' },
        { name: 'service', description: 'The service itself' },
      ],
    },
    transform: jsonSchemaTransform,
    transformObject: jsonSchemaTransformObject,
  });
}

interface Described {
  readonly components: { readonly schemas: Readonly<Record<string, unknown>> };
}

/** Leaves out the schemas that nothing points at: each comes in two forms, and most routes need one of them. */
function withoutUnused<Document extends Described>(document: Document): Document {
  const { components } = document;
  const everything = JSON.stringify(document);
  const used = Object.entries(components.schemas).filter(([name]) =>
    everything.includes(`"#/components/schemas/${name}"`),
  );
  const kept = { ...document, components: { ...components, schemas: Object.fromEntries(used) } };
  // Leaving one out may have taken away the last thing that points at another.
  return used.length === Object.keys(components.schemas).length ? kept : withoutUnused(kept);
}

/** GET /api/openapi.json: the description of every route, OpenAPI 3.1. */
export function openApiRoutes(app: App): void {
  app.get(
    '/api/openapi.json',
    {
      schema: { tags: ['service'], summary: 'This description', response: responses({ 200: document }, []) },
    },
    async () => withUnits(withoutUnused(JSON.parse(JSON.stringify(app.swagger())))),
  );
}
