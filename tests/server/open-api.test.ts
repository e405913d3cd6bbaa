import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestService, someJob, type TestService } from './support.ts';

interface Operation {
  readonly summary?: string;
  readonly parameters?: readonly { name: string; in: string; required?: boolean; schema: object }[];
  readonly requestBody?: { content: Record<string, { schema: object }> };
  readonly responses: Record<string, { description: string; content: Record<string, { schema: object }> }>;
}
interface Document {
  readonly openapi: string;
  readonly info: { title: string; version: string };
  readonly paths: Record<string, Record<string, Operation>>;
  readonly components: { schemas: Record<string, object> };
}

let service: TestService;
let document: Document;
let routes: string[];

beforeAll(async () => {
  service = await openTestService();
  document = (await service.app.inject('/api/openapi.json')).json();
  routes = routesOf(service.app.printRoutes({ commonPrefix: false }));
});
afterAll(() => service.close());

/** Reads the tree that the web framework prints of its routes: four characters of indent a level, then a part. */
function routesOf(tree: string): string[] {
  const parts: string[] = [];
  return tree.split('\n').flatMap((line) => {
    const [, indent, part, methods] = /^([│ ]*)[├└]── (\S+)(?: \(([A-Z, ]+)\))?$/.exec(line) ?? [];
    if (indent === undefined) return [];
    parts.splice(indent.length / 4, Number.POSITIVE_INFINITY, part!);
    const path = parts.join('').replaceAll(/:(\w+)/g, '{$1}');
    const named = (methods ?? '').split(', ').filter((method) => method !== '' && method !== 'HEAD');
    return named.map((method) => `${method} ${path}`);
  });
}

const operations = () =>
  Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => ({ path, method, operation })),
  );

function refsIn(node: unknown): string[] {
  if (typeof node !== 'object' || node === null) return [];
  return Object.entries(node).flatMap(([key, value]) =>
    key === '$ref' && typeof value === 'string' ? [value] : refsIn(value),
  );
}

describe('the OpenAPI document', () => {
  it('is 3.1 with the fields that version requires', () => {
    expect(document.openapi).toMatch(/^3\.1\.\d+$/);
    expect(document.info.title).toBe('Slotwatt');
    expect(document.info.version).not.toBe('');
    for (const { path, operation } of operations()) {
      expect(path).toMatch(/^\//);
      expect(operation.summary, path).toBeTruthy();
      for (const [status, response] of Object.entries(operation.responses)) {
        expect(status).toMatch(/^[2-5]\d\d$/);
        expect(response.description, `${path} ${status}`).toBeTruthy();
      }
    }
  });

  it('declares every part of an address that stands in braces, as required', () => {
    for (const { path, operation } of operations()) {
      const inPath = [...path.matchAll(/\{(\w+)\}/g)].map((match) => match[1]);
      const declared = (operation.parameters ?? []).filter((parameter) => parameter.in === 'path');
      expect(declared.map((parameter) => parameter.name).sort(), path).toEqual(inPath.sort());
      expect(
        declared.every((parameter) => parameter.required),
        path,
      ).toBe(true);
    }
  });

  it('holds every route of the service and no other', () => {
    const described = operations().map(({ path, method }) => `${method.toUpperCase()} ${path}`);
    expect(routes.length).toBeGreaterThan(20);
    expect(described.sort()).toEqual(routes.sort());
  });

  it('points only at schemas it has, and has none that nothing points at', () => {
    const refs = new Set(refsIn(document));
    const names = Object.keys(document.components.schemas).map((name) => `#/components/schemas/${name}`);
    expect([...refs].sort()).toEqual(names.sort());
  });

  it('holds only schemas of draft 2020-12, and they tell a job from another document', () => {
    const ajv = new Ajv2020({ strict: false, validateFormats: false });
    ajv.addSchema(document, 'service');
    for (const name of Object.keys(document.components.schemas)) {
      expect(ajv.compile({ $ref: `service#/components/schemas/${name}` })).toBeTypeOf('function');
    }
    const isJob = ajv.compile({ $ref: 'service#/components/schemas/JobInput' });
    expect(isJob(someJob())).toBe(true);
    expect(isJob({ ...someJob(), extra: 1 })).toBe(false);
    const wide = someJob();
    wide.panel.width_mm = 1e9;
    expect(isJob(wide)).toBe(false);
  });

  it('gives quantities a title, a description and a unit', () => {
    const job = document.components.schemas.JobInput as {
      properties: {
        panel: { properties: Record<string, { title: string; description: string; unit: string }> };
      };
    };
    const width = job.properties.panel.properties.width_mm!;
    expect(width.title).toBe('Panel width');
    expect(width.unit).toBe('mm');
    expect(width.description).toMatch(/^In mm\. /);
  });

  it('lists problem details for each route that can be asked wrongly', () => {
    for (const { path, method, operation } of operations()) {
      expect(operation.responses['500']!.content, path).toHaveProperty(['application/problem+json']);
      if (operation.requestBody) {
        for (const status of ['400', '413', '415'])
          expect(operation.responses, path).toHaveProperty([status]);
      }
      if (method === 'put' || method === 'delete') expect(operation.responses).toHaveProperty(['428']);
    }
  });
});
