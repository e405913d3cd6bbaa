import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { shownRows } from '../../server/papers/shown.ts';
import { demoJobs, type Sizing } from '../../src/index.ts';
import { openTestService, problemIn, someJob, type TestService } from '../server/support.ts';

let service: TestService;

beforeAll(async () => {
  service = await openTestService();
});
afterAll(() => service.close());

const papers = (name: string, query: string, body: unknown) =>
  service.ask('POST', `/api/papers/${name}${query}`, { route: `/api/papers/${name}`, body });

const plain = { 'content-type': 'text/plain' };
const drawing = (name: string, query: string, body: string, headers: Record<string, string> = plain) =>
  service.ask('POST', `/api/drawing-in/${name}${query}`, { route: `/api/drawing-in/${name}`, body, headers });

const fixture = (name: string): string =>
  readFileSync(new URL(`../server/drawing-in/fixtures/${name}`, import.meta.url), 'utf8');

describe('papers over the network', () => {
  it.each([
    ['pack.pdf', 'pack-A3.pdf', 'application/pdf', '%PDF-'],
    ['labels.pdf', 'labels-A3.pdf', 'application/pdf', '%PDF-'],
    ['labels.csv', 'labels.csv', 'text/csv', '\ufeff"Cable"'],
    ['elevation.svg', 'elevation-A3.svg', 'image/svg+xml', '<svg '],
    ['section.svg', 'section-A3.svg', 'image/svg+xml', '<svg '],
    ['elevation.dxf', 'elevation.dxf', 'image/vnd.dxf', '0\nSECTION'],
    ['section.dxf', 'section.dxf', 'image/vnd.dxf', '0\nSECTION'],
  ])('sends %s as a file of its own name, with the sheet in it', async (name, named, type, start) => {
    const answer = await papers(name, '?paper=A3&accuracy=quick', someJob());
    expect(answer.status).toBe(200);
    expect(String(answer.headers['content-type'])).toContain(type);
    expect(String(answer.headers['content-disposition'])).toContain(`-${named}"`);
    expect(answer.text.startsWith(start)).toBe(true);
  });

  it('works with care unless told otherwise', async () => {
    const careful = await papers('section.svg', '', someJob());
    const sizing: Sizing = JSON.parse(
      (await service.ask('POST', '/api/sizing?accuracy=careful', { route: '/api/sizing', body: someJob() }))
        .text,
    );
    expect(careful.text).toContain(sizing.heat.method.split(' ').slice(0, 4).join(' '));
  });

  it('shows the numbers that the schedules of the service have', async () => {
    const sizing: Sizing = JSON.parse((await service.ask('POST', '/api/sizing', { body: someJob() })).text);
    const svg = (await papers('elevation.svg', '?accuracy=quick', someJob())).text;
    const feedPoints = sizing.schedules.find(({ id }) => id === 'feed-points')!;
    for (const row of shownRows(feedPoints)) expect(svg).toContain(`x ${row[3]}  y ${row[4]}`);
  });

  it('refuses with problems', async () => {
    expect((await papers('pack.pdf', '?paper=A5', someJob())).status).toBe(400);
    expect((await papers('pack.pdf', '', { format: {} })).status).toBe(400);
    const mismatched = someJob();
    const refused = await papers('pack.pdf', '', {
      ...mismatched,
      drivers: { ...mismatched.drivers, entry: '24V-75W' },
    });
    expect(refused.status).toBe(422);
    expect(problemIn(refused).detail).toContain('12 V');
  });
});

describe('the pack of an issued revision', () => {
  const route = '/api/jobs/{id}/revisions/{revision}/pack.pdf';

  it('says what changed since the one before, and is the same whenever it is printed', async () => {
    const made = await service.ask('POST', '/api/jobs', { body: someJob() });
    const { id } = JSON.parse(made.text);
    const issue = async (etag: string, note: string) =>
      service.ask('POST', `/api/jobs/${id}/revisions`, {
        route: '/api/jobs/{id}/revisions',
        headers: { 'if-match': etag },
        body: { note },
      });
    expect((await issue(String(made.headers.etag), 'first')).status).toBe(201);
    const next = someJob();
    next.title.revision = 'B';
    next.cables.tail_mm = 500;
    const saved = await service.ask('PUT', `/api/jobs/${id}`, {
      route: '/api/jobs/{id}',
      headers: { 'if-match': String(made.headers.etag) },
      body: next,
    });
    expect((await issue(String(saved.headers.etag), 'longer tails')).status).toBe(201);
    const print = (revision: string) =>
      service.ask('GET', `/api/jobs/${id}/revisions/${revision}/pack.pdf`, { route });
    const [first, second, again] = [await print('a'), await print('b'), await print('b')];
    expect([first.status, second.status]).toEqual([200, 200]);
    expect(first.headers['content-disposition']).toBe(`attachment; filename="${id}-a-pack-A4.pdf"`);
    expect(again.text).toBe(second.text);
    expect(second.text.length).toBeGreaterThan(first.text.length);
    const nothing = await service.ask('GET', `/api/jobs/${id}/revisions/c/pack.pdf`, { route });
    expect(nothing.status).toBe(404);
  });
});

describe('a pack of sixty slots', () => {
  it('does not keep others waiting', async () => {
    let isDone = false;
    const pack = papers('pack.pdf', '?accuracy=quick', demoJobs[2]!.job).then((answer) => {
      isDone = true;
      return answer;
    });
    expect((await service.ask('GET', '/api/health')).status).toBe(200);
    expect(isDone).toBe(false);
    expect((await pack).status).toBe(200);
  });
});

describe('drawings over the network', () => {
  it('answers with layers first, then with slots that a job takes', async () => {
    const text = fixture('makerjs-inches.dxf');
    const layers = JSON.parse((await drawing('dxf', '', text)).text);
    expect(layers.layers.map(({ name }: { name: string }) => name)).toEqual(['slots']);
    const { segments } = JSON.parse((await drawing('dxf', '?layer=slots', text)).text);
    const job = {
      ...someJob(),
      slots: { from: 'segments', width_mm: 19, segments },
    };
    expect((await service.ask('POST', '/api/set-out', { body: job })).status).toBe(200);
  });

  it('takes unit and corner, and a table', async () => {
    const text = fixture('ezdxf-r12.dxf');
    const read = JSON.parse((await drawing('dxf', '?layer=SLOTS&unit=mm&cornerX_mm=90', text)).text);
    expect(read.segments[0].x0_mm).toBe(10);
    const table = JSON.parse((await drawing('table', '', '10;20;10;900')).text);
    expect(table.segments).toEqual([{ x0_mm: 10, y0_mm: 20, x1_mm: 10, y1_mm: 900 }]);
  });

  it('gives no width to lines that have none', async () => {
    const line = ['0', 'LINE', '8', 'A', '10', '1', '20', '2', '11', '1', '21', '200'];
    const text = ['0', 'SECTION', '2', 'ENTITIES', ...line, '0', 'ENDSEC', '0', 'EOF'].join('\n');
    const answer = await drawing('dxf', '?layer=A&unit=mm', text);
    expect(answer.status).toBe(200);
    expect(JSON.parse(answer.text)).toMatchObject({ width_mm: null, segments: [{ x0_mm: 1, y1_mm: 200 }] });
  });

  it('refuses a broken file, a wrong type and too much, each with a sentence', async () => {
    const broken = await drawing('dxf', '?layer=SLOTS', fixture('ezdxf-r12.dxf').slice(0, 400));
    expect(broken.status).toBe(400);
    expect(problemIn(broken).detail).toContain('cut short');
    const json = await drawing('dxf', '', '{}', { 'content-type': 'application/x-dxf' });
    expect([json.status, problemIn(json).detail]).toEqual([415, expect.stringContaining('text/plain')]);
    const large = await drawing('dxf', '', ' '.repeat(8 * 1024 * 1024 + 1));
    expect([large.status, problemIn(large).detail]).toEqual([413, expect.stringContaining('8 MB')]);
  });
});
