import { mkdir, readdir, readFile, symlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Imported, KeptProduct, KeptProducts } from '../../server/contract/products.ts';
import { someCable } from './products.ts';
import { type Answer, openTestService, problemIn, type TestService } from './support.ts';

let service: TestService;
beforeEach(async () => {
  service = await openTestService();
});
afterEach(() => service.close());

const route = '/api/products/{id}';
const read = <Value>({ text }: Answer): Value => JSON.parse(text);
const list = async (): Promise<KeptProducts['products']> =>
  read<KeptProducts>(await service.ask('GET', '/api/products')).products;
const add = async (name: string): Promise<KeptProduct> =>
  read<KeptProduct>(await service.ask('POST', '/api/products', { body: someCable(name) }));
const put = (id: string, etag: string | null, body: unknown) =>
  service.ask('PUT', `/api/products/${id}`, {
    route,
    headers: etag === null ? {} : { 'if-match': etag },
    body,
  });
const file = (): string => join(service.jobsFolder, '.products', 'products.json');

describe('own products', () => {
  it('are kept, listed, changed on the version that was seen, and deleted', async () => {
    expect(await list()).toEqual([]);
    const first = await add('Flex, 2 × 1.5 mm²');
    expect(first.product).toEqual({ ...someCable('Flex, 2 × 1.5 mm²'), id: 'own-flex-2-1-5-mm2' });
    const second = await add('Flex, 2 × 1.5 mm²');
    expect(second.product.id).toBe('own-flex-2-1-5-mm2-2');
    const changed = read<KeptProduct>(await put(first.product.id, first.etag, someCable('Flex')));
    expect(changed.product).toEqual({ ...someCable('Flex'), id: first.product.id });
    expect(changed.etag).not.toBe(first.etag);
    const gone = await service.ask('DELETE', `/api/products/${second.product.id}`, {
      route,
      headers: { 'if-match': second.etag },
    });
    expect(read<KeptProduct>(gone).product).toEqual(second.product);
    expect(await list()).toEqual([changed]);
  });

  it('are no job of the list, and are there again after a start', async () => {
    await add('Flex');
    expect(read(await service.ask('GET', '/api/jobs'))).toEqual([]);
    expect(await readdir(join(service.jobsFolder, '.products'))).toEqual(['products.json']);
  });

  it('are not overwritten by who has not seen what they are now', async () => {
    const { product, etag } = await add('Flex');
    await put(product.id, etag, someCable('Theirs'));
    for (const [version, status] of [
      [etag, 412],
      [null, 428],
      ['*', 428],
      ['"x"', 412],
    ] as const) {
      const answer = await put(product.id, version, someCable('Mine'));
      expect(answer.status).toBe(status);
      const headers: Record<string, string> = version === null ? {} : { 'if-match': version };
      const gone = await service.ask('DELETE', `/api/products/${product.id}`, { route, headers });
      expect(gone.status).toBe(status);
    }
    expect(problemIn(await put(product.id, etag, someCable('Mine'))).detail).toMatch(
      /^“Theirs” was changed by/,
    );
    expect((await list())[0]!.product.data.name).toBe('Theirs');
  });

  it('of two who save at once the second is told', async () => {
    const { product, etag } = await add('Flex');
    const answers = await Promise.all(['A', 'B', 'C'].map((name) => put(product.id, etag, someCable(name))));
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 412, 412]);
    expect(await list()).toHaveLength(1);
  });

  it('are refused with the field and the remedy', async () => {
    const cable = someCable('Flex');
    const refusal = async (body: unknown) => problemIn(await service.ask('POST', '/api/products', { body }));
    const thick = await refusal({ ...cable, data: { ...cable.data, area_mm2: 900 } });
    expect(thick.issues[0]).toMatchObject({ place: { field: 'data.area_mm2' } });
    expect(thick.detail).toContain('Conductor area must lie between 0.1 mm² and 16 mm²');
    expect((await refusal({ ...cable, kind: 'lamp' })).detail).toContain('one of strip, driver');
    expect((await refusal({ ...cable, colour: 'red' })).detail).toContain('"colour" is not expected here');
    expect((await refusal({ ...cable, dated: 'spring' })).detail).toContain('such as 2026-03-31');
    expect((await refusal([])).status).toBe(400);
    const { product, etag } = await add('Flex');
    expect((await put('own-nothing', etag, cable)).status).toBe(404);
    expect((await put('..%2f..%2fx', etag, cable)).status).toBe(400);
    const other = { ...cable, kind: 'cover', data: {} };
    expect((await put(product.id, etag, other)).status).toBe(400);
    expect(await list()).toHaveLength(1);
  });

  it('keep their kind', async () => {
    const { product, etag } = await add('Flex');
    const table = 'Driver name,Typical values from\r\nD,24V-75W\r\n';
    const headers = { 'content-type': 'text/plain' };
    const path = '/api/products/tables/driver';
    await service.ask('POST', path, { route: '/api/products/tables/{kind}', headers, body: table });
    const driver = (await list())[1]!.product;
    const { id: _, ...body } = driver;
    const answer = await put(product.id, etag, body);
    expect(answer.status).toBe(409);
    expect(problemIn(answer).detail).toBe('“D” is a cable and stays one: keep a new product.');
  });

  it('come and go as tables', async () => {
    await add('Flex');
    const at = '/api/products/tables/cable';
    const template = await service.ask('GET', `${at}/template.csv`, {
      route: '/api/products/tables/{kind}/template.csv',
    });
    expect(template.text).toMatch(/^\uFEFF"Id","Cable name"/);
    const whole = await service.ask('GET', `${at}/products.csv`, {
      route: '/api/products/tables/{kind}/products.csv',
    });
    const headers = { 'content-type': 'text/plain' };
    const bring = async (body: string, query = '') =>
      read<Imported>(
        await service.ask('POST', `${at}${query}`, { route: '/api/products/tables/{kind}', headers, body }),
      );
    expect(await bring(whole.text)).toMatchObject({ added: [], same: 1, notTaken: null });
    const other = whole.text.replace('1.5', '1.6');
    expect(await bring(other)).toMatchObject({ replaced: [], problemCount: 1 });
    expect(await bring(other, '?replace=yes')).toMatchObject({ replaced: ['Flex'], problemCount: 0 });
    const kinds = await service.ask('GET', '/api/products/tables/lamp/products.csv', {
      route: '/api/products/tables/{kind}/products.csv',
    });
    expect(problemIn(kinds).detail).toContain('The kind is one of: strip, driver');
  });

  it('in a file that was damaged, or comes from a later program, are left alone and said', async () => {
    await add('Flex');
    const text = await readFile(file(), 'utf8');
    for (const damaged of [text.slice(0, 100), text.replace('"version":1', '"version":2'), '', '[]']) {
      await writeFile(file(), damaged);
      for (const answer of [
        await service.ask('GET', '/api/products'),
        await service.ask('POST', '/api/products', { body: someCable('New') }),
      ]) {
        expect(answer.status).toBe(409);
        expect(problemIn(answer).detail).toMatch(/cannot be read, so nothing of them was changed.+backup/);
      }
      expect(await readFile(file(), 'utf8')).toBe(damaged);
    }
  });

  it('are never written through a link, nor over what is no file', async () => {
    const elsewhere = join(service.jobsFolder, 'elsewhere');
    await mkdir(elsewhere);
    await symlink(elsewhere, join(service.jobsFolder, '.products'));
    const answer = await service.ask('POST', '/api/products', { body: someCable('New') });
    expect(answer.status).toBeGreaterThanOrEqual(400);
    expect(await readdir(elsewhere)).toEqual([]);
  });
});
