import { z } from 'zod';
import { found } from '../../src/outcome.ts';
import {
  imported,
  keptProduct,
  keptProducts,
  productId,
  productKind,
  productToKeep,
} from '../contract/products.ts';
import { bringIn } from '../own-products/import.ts';
import { tableOf, template } from '../own-products/table.ts';
import { keptOr } from '../problem.ts';
import { bodyStatuses, responses } from '../responses.ts';
import type { App, Service } from '../service.ts';
import {
  addProduct,
  changeProduct,
  changeProducts,
  listProducts,
  productsOf,
  removeProduct,
} from '../store/products.ts';
import { ifMatch } from './kept-jobs.ts';

const tags = ['own products'];
const params = z.object({ id: productId });
const ofKind = z.object({ kind: productKind });
const changeStatuses = [...bodyStatuses, 404, 409, 412, 428, 507] as const;

function listAndAdd(app: App, { workshop }: Service): void {
  app.get(
    '/api/products',
    {
      schema: {
        tags,
        summary: 'The workshop’s own products',
        response: responses({ 200: keptProducts }, [409, 507]),
      },
    },
    async () => ({ products: keptOr(await listProducts(workshop)) }),
  );
  app.post(
    '/api/products',
    {
      schema: {
        tags,
        summary: 'Keep a new own product',
        body: productToKeep,
        response: responses({ 201: keptProduct }, [...bodyStatuses, 409, 507]),
      },
    },
    async (request, reply) => {
      const kept = keptOr(await addProduct(workshop, request.body));
      return reply
        .code(201)
        .headers({ location: `/api/products/${kept.product.id}`, etag: kept.etag })
        .send(kept);
    },
  );
}

function changeAndRemove(app: App, { workshop }: Service): void {
  app.put(
    '/api/products/:id',
    {
      schema: {
        tags,
        summary: 'Change an own product; its kind and id stay',
        params,
        headers: ifMatch,
        body: productToKeep,
        response: responses({ 200: keptProduct }, changeStatuses),
      },
    },
    async (request, reply) => {
      const at = { id: request.params.id, version: request.headers['if-match'] };
      const kept = keptOr(await changeProduct(workshop, at, request.body));
      return reply.header('etag', kept.etag).send(kept);
    },
  );
  app.delete(
    '/api/products/:id',
    {
      schema: {
        tags,
        summary: 'Delete an own product, which is the answer; jobs keep their copies',
        params,
        headers: ifMatch,
        response: responses({ 200: keptProduct }, changeStatuses),
      },
    },
    async (request) =>
      keptOr(await removeProduct(workshop, { id: request.params.id, version: request.headers['if-match'] })),
  );
}

const csv = { content: { 'text/csv': { schema: z.string() } } };
const csvType = 'text/csv; charset=utf-8';

const text = z
  .string({ error: 'send the text of the table as text/plain.' })
  .meta({ title: 'Table of products as CSV' });

function tables(app: App, { workshop }: Service): void {
  app.get(
    '/api/products/tables/:kind/template.csv',
    {
      schema: {
        tags,
        summary: 'An empty table of a kind, headings with their units',
        params: ofKind,
        response: responses({ 200: { description: 'CSV', ...csv } }, []),
      },
    },
    async ({ params: { kind } }, reply) => reply.type(csvType).send(template(kind)),
  );
  app.get(
    '/api/products/tables/:kind/products.csv',
    {
      schema: {
        tags,
        summary: 'Every own product of a kind as a table that can be brought in again',
        params: ofKind,
        response: responses({ 200: { description: 'CSV', ...csv } }, [409, 507]),
      },
    },
    async ({ params: { kind } }, reply) =>
      reply.type(csvType).send(tableOf(keptOr(await productsOf(workshop)), kind)),
  );
  app.post(
    '/api/products/tables/:kind',
    {
      schema: {
        tags,
        summary: 'Bring a table of products in: good rows are kept, bad ones named and given back',
        consumes: ['text/plain'],
        params: ofKind,
        querystring: z.strictObject({
          replace: z
            .enum(['yes', 'no'], { error: 'replace is yes or no.' })
            .default('no')
            .describe('whether a row may replace a product of its id or name that has other values'),
        }),
        body: text,
        response: responses({ 200: imported }, [...bodyStatuses, 409, 507]),
      },
    },
    async ({ params: { kind }, query: { replace }, body }) =>
      keptOr(
        await changeProducts(workshop, (products) =>
          found(bringIn(products, body, { kind, mayReplace: replace === 'yes' })),
        ),
      ),
  );
}

/** /api/products: own products of the workshop, one by one and as tables. */
export function productRoutes(app: App, service: Service): void {
  for (const add of [listAndAdd, changeAndRemove, tables]) add(app, service);
}
