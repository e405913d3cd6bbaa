import { describe, expect, it } from 'vitest';
import { type PackInput, packPdf } from '../../server/papers/pack.ts';
import { paperOf } from '../../server/papers/papers.ts';
import { statusText } from '../../server/papers/sheets/status.ts';
import { demoJobs, type Job, type Sizing, sizeJobCarefully } from '../../src/index.ts';
import { pdfTexts } from './pdf-text.ts';

const bare = (text: string): string => text.replaceAll(/\s/g, '');

function careful(id: string): { job: Job; sizing: Sizing } {
  const { job } = demoJobs.find((demo) => demo.id === id)!;
  const outcome = sizeJobCarefully(job);
  if (!outcome.ok) throw new Error(id);
  return { job, sizing: outcome.value };
}

const inputOf = (of: { job: Job; sizing: Sizing }, issued: PackInput['issued']): PackInput => ({
  ...of,
  format: 'A4',
  issued,
  revisions: [],
  before: null,
});

const issuedOn = { date: '2026-11-30' };
const [stair, foyer] = [careful('stair-wall'), careful('foyer-wall')];
const statusOf = (sizing: Sizing, status: string) =>
  sizing.findings.filter((f) => f.status === status).length;

describe('the status of a sheet', () => {
  it('counts what is open, and a draft says that it is not issued', () => {
    const [fails, watch] = [statusOf(foyer.sizing, 'fails'), statusOf(foyer.sizing, 'watch')];
    expect(fails).toBeGreaterThan(1);
    expect(statusText({ ...foyer, issued: null })).toBe(
      `draft, not issued: ${fails} checks fail, ${watch} warnings`,
    );
    expect(statusText({ ...foyer, issued: issuedOn })).toBe(
      `issued with open findings: ${fails} checks fail, ${watch} warnings`,
    );
    const clear = { ...foyer.sizing, findings: foyer.sizing.findings.filter((f) => f.status === 'passes') };
    expect(statusText({ sizing: clear, issued: null })).toBe('draft, not issued');
    expect(statusText({ sizing: clear, issued: issuedOn })).toBe('issued');
    const one = { ...clear, findings: [foyer.sizing.findings[0]!] };
    expect(statusText({ sizing: one, issued: issuedOn })).toBe('issued with open findings: 1 check fails');
  });

  it('counts what passes but for a condition apart from warnings', () => {
    const [fails, watch] = [
      foyer.sizing.findings.find((f) => f.status === 'fails')!,
      { ...foyer.sizing.findings[0]!, status: 'watch' as const },
    ];
    const held = { ...watch, passesUnder: ['mixing-limit' as const] };
    const sizing = { ...foyer.sizing, findings: [fails, watch, held, held] };
    expect(statusText({ sizing, issued: null })).toBe(
      'draft, not issued: 1 check fails, 1 warning, 2 on condition',
    );
  });

  it.each([null, issuedOn])('stands on every sheet of the pack: %j', async (issued) => {
    const input = inputOf(foyer, issued);
    const pages = pdfTexts(await packPdf(input, false));
    for (const texts of pages) {
      expect(bare(texts.join(''))).toContain(bare(statusText(input)));
      expect(texts).toContain(issued?.date ?? 'not issued');
    }
  });

  it.each(['elevation.svg', 'section.svg', 'elevation.dxf', 'section.dxf'] as const)(
    'stands on %s',
    async (name) => {
      const input = inputOf(stair, null);
      const paper = bare(String(await paperOf(name, input)).replaceAll(/<[^>]*>/g, ''));
      expect(paper).toContain(bare(statusText(input)));
    },
  );
});

describe('what the engine has to say', () => {
  it('is all printed: notes, what is behind, and the limits that do not decide', async () => {
    for (const each of [stair, foyer]) {
      const paper = bare(
        pdfTexts(await packPdf(inputOf(each, null), false))
          .flat()
          .join(''),
      );
      expect(each.sizing.notes.length).toBeGreaterThan(0);
      for (const { sentence } of each.sizing.notes) expect(paper).toContain(bare(sentence));
      const behind = each.job.section.behind === 'insulation' ? 'insulation' : 'an inner wall';
      expect(paper).toContain(bare(`Behind the backing: ${behind}`));
    }
  });

  it('stands on the section sheet, and on the cover where temperatures do not hold', async () => {
    const pages = pdfTexts(await packPdf(inputOf(stair, null), false)).map((texts) => bare(texts.join('')));
    const sloping = stair.sizing.notes.find(({ onCover }) => onCover)!;
    expect(sloping.sheet).toBe('section');
    const pageOf = (heading: string) => pages.find((page) => page.startsWith(bare(heading)))!;
    expect(pages[0]).toContain(bare(sloping.sentence));
    expect(pageOf('Section through a slot')).toContain(bare(sloping.sentence));
  });

  it('never reads like an approval: the checks are this program’s own', async () => {
    const clear = {
      ...stair,
      sizing: { ...stair.sizing, findings: stair.sizing.findings.filter((f) => f.status === 'passes') },
    };
    const [cover] = pdfTexts(await packPdf(inputOf(clear, issuedOn), false));
    expect(bare(cover!.join(''))).toContain(bare("None of this program's own checks fails."));
    expect(bare(cover!.join(''))).not.toContain(bare('every check'));
  });

  // Timber of the foyer is held to 77 degC by finding, table and cover; its drop to the worst case.
  it('says one limit and one drop on cover, section and findings', async () => {
    const paper = bare(
      pdfTexts(await packPdf(inputOf(foyer, null), false))
        .flat()
        .join(''),
    );
    expect(paper).toContain(bare('Hottest timber 60 and 90 °C'));
    const drop = foyer.sizing.findings.find(({ id }) => id === 'voltage-drop')!.value!;
    expect(drop).toBeGreaterThan(0.05);
    expect(paper).toContain(bare(`${(100 * drop).toFixed(1)} % in the worst case, limit 5.0 %`));
    expect(paper).toContain(bare('over the limit of 5.0 %'));
  });
});
