import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { extentsOf } from '../../server/papers/ink/mark.ts';
import { inReadingOrder } from '../../server/papers/ink/reading-order.ts';
import { packSheets } from '../../server/papers/pack.ts';
import { demoJobs, type Job, sizeJob } from '../../src/index.ts';
import type { CodeRange } from '../../src/job/printed-characters.ts';
import { openTestService, someJob, type TestService } from '../server/support.ts';
import { pdfTexts, unpacked } from './pdf-text.ts';

let service: TestService;

beforeAll(async () => {
  service = await openTestService();
});
afterAll(() => service.close());

async function packOf(job: Job): Promise<string[][]> {
  const url = '/api/papers/pack.pdf?accuracy=quick';
  const reply = await service.app.inject({ method: 'POST', url, payload: job });
  expect(reply.statusCode).toBe(200);
  const pdf = unpacked(reply.rawPayload);
  const drawn = [...pdf.toString('latin1').matchAll(/\[(.*)\] TJ/g)].flatMap(([, line]) =>
    [...line!.matchAll(/<([\da-f]*)>/g)].flatMap(([, hex]) => hex!.match(/.{4}/g) ?? []),
  );
  // Glyph 0 is the empty box that stands for what a font has not.
  expect(drawn.length).toBeGreaterThan(1000);
  expect(drawn).not.toContain('0000');
  return pdfTexts(pdf);
}

function titled(change: Partial<Job['title']>): Job {
  const job = someJob();
  return { ...job, title: { ...job.title, ...change } };
}

const joined = (texts: readonly string[]): string => texts.join(' ').replaceAll(/\s+/g, ' ');

describe('GET /api/papers/characters', () => {
  // Counts of the fonts' own list unicover.txt, column Sans, of DejaVu 2.37.
  it.each([
    ['Greek and Coptic', 0x370, 0x3ff, 135],
    ['Cyrillic', 0x400, 0x4ff, 256],
    ['Hebrew', 0x590, 0x5ff, 54],
    ['Georgian', 0x10a0, 0x10ff, 83],
    ['CJK ideographs', 0x4e00, 0x9fff, 0],
    ['emoticons', 0x1f650, 0x1f6ff, 0],
  ])('says how many letters there are: %s', async (_, first, last, count) => {
    const { ranges } = JSON.parse((await service.ask('GET', '/api/papers/characters')).text) as {
      ranges: CodeRange[];
    };
    const within = ranges.map(([a, b]) => Math.max(0, Math.min(b, last) - Math.max(a, first) + 1));
    expect(within.reduce((sum, each) => sum + each, 0)).toBe(count);
  });
});

describe('a pack of a job with characters that no font has', () => {
  it('prints their codes, says so on the cover and lists them', async () => {
    const job = titled({ client: '木工房 Łódź', drawnBy: 'Ann 🪵' });
    job.drivers.places[0]!.name = 'Kasten 箱';
    const pages = (await packOf(job)).map(joined);
    expect(pages[0]).toContain('[U+6728 U+5DE5 U+623F] Łódź');
    const said =
      /Codes stand for characters that cannot be printed \(sheet (\d+)\): Client; Drawn by; Driver place 1\./;
    const sheet = Number(said.exec(pages[0]!)?.[1]);
    const list = pages[sheet - 1]!;
    expect(list).toContain('Client: 3 characters cannot be printed with the fonts at hand');
    expect(list).toContain('instead: U+6728, U+5DE5, U+623F.');
    expect(list).toContain('Drawn by: 1 character cannot');
    expect(list).toContain('instead: U+1FAB5.');
    expect(list).toContain('Driver place 1: 1 character cannot');
    // The schedules and drawings name the place as the title block does.
    expect(pages.filter((page) => page.includes('Kasten [U+7BB1]')).length).toBeGreaterThan(2);
  });

  it('prints what the fonts have as it is, and says nothing', async () => {
    const client = 'Ζαφείρης, Щербаков, Łąki, ქართული';
    const pages = (await packOf(titled({ client, place: 'שלום' }))).map(joined);
    expect(pages[0]).toContain(client);
    expect(pages.join(' ')).not.toMatch(/cannot be printed|U\+[\dA-F]{4}/);
  });

  it('counts what is more than six, so that the longest text stays in its place', () => {
    const job = structuredClone(demoJobs[2]!.job);
    const wide = (count: number): string => '木'.repeat(count);
    job.title = {
      ...job.title,
      job: wide(60),
      client: `${wide(7)} ${wide(2)}`,
      place: wide(60),
      maker: wide(60),
      documentNumber: wide(30),
      revision: wide(6),
    };
    job.drivers.places = job.drivers.places.map((place, i) => ({ ...place, name: `${i}${wide(29)}` }));
    job.cables.data.name = wide(80);
    const outcome = sizeJob(job);
    if (!outcome.ok) throw new Error('the job is sized');
    for (const format of ['A4', 'A3'] as const) {
      const input = { job, sizing: outcome.value, format, issued: null, revisions: [], before: null };
      const sheets = packSheets(input);
      for (const { marks, frame, titles } of sheets) {
        const { x0, y0, x1, y1 } = extentsOf(marks);
        expect(
          Math.min(x0 - frame.x0, y0 - frame.y0, frame.x1 - x1, frame.y1 - y1),
          titles.join(),
        ).toBeGreaterThan(-1e-9);
      }
      const cover = joined(sheets[0]!.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : [])));
      const six = Array.from({ length: 6 }, () => 'U+6728').join(' ');
      expect(cover).toContain(`[${six} +54]`);
      expect(cover).toContain(`[${six} +1] [+2]`);
    }
  });

  it('names the revision whose note has them', () => {
    const { job } = demoJobs[0]!;
    const outcome = sizeJob(job);
    if (!outcome.ok) throw new Error('the job is sized');
    const revisions = [{ revision: 'A', date: '2026-01-02', note: 'longer tails 長' }];
    const input = {
      job,
      sizing: outcome.value,
      format: 'A4',
      issued: null,
      revisions,
      before: null,
    } as const;
    const cover = joined(
      packSheets(input)[0]!.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : [])),
    );
    expect(cover).toMatch(/cannot be printed \(sheet \d+\): What changed in revision A\./);
    expect(cover).toContain('longer tails [U+9577]');
  });
});

describe('the order of words that run to the left', () => {
  // Unicode Standard Annex 9: what is written "car is THE CAR in arabic" stands as "car is RAC EHT in arabic"; words
  // themselves are turned by the shaper of the PDF.
  it.each([
    ['plain words', ['plain words']],
    ['car is שלום עולם in hebrew', ['car is ', 'עולם', ' ', 'שלום', ' in hebrew']],
    ['שלום עולם', ['עולם', ' ', 'שלום']],
    ['שלום 12', ['12', ' ', 'שלום']],
    // Rule L4: a bracket that runs to the left is the other one of its pair; turned by the shaper this opens on the left.
    ['שלום (עולם)', [')עולם(', ' ', 'שלום']],
  ])('%s', (text, pieces) => {
    expect(inReadingOrder(text)).toEqual(pieces);
  });
});
