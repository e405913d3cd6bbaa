import { describe, expect, it } from 'vitest';
import { elevation } from '../../server/papers/drawings/elevation.ts';
import { scales } from '../../server/papers/drawings/scale.ts';
import { singleLineSheets } from '../../server/papers/drawings/single-line.ts';
import { extentsOf, type Mark } from '../../server/papers/ink/mark.ts';
import { svgOf } from '../../server/papers/ink/svg.ts';
import { elevationDraft } from '../../server/papers/sheets/elevation-sheet.ts';
import { sectionDrafts } from '../../server/papers/sheets/section-sheet.ts';
import { bodyOf } from '../../server/papers/sheets/sheet.ts';
import { demos, unusual } from './jobs.ts';

const all = [...demos, ...unusual];
const formats = ['A4', 'A3'] as const;

const on = (marks: readonly Mark[], layer: Mark['layer']): Mark[] =>
  marks.filter((mark) => mark.layer === layer);
const textsOf = (marks: readonly Mark[]): string[] =>
  marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));

describe.each(all)('drawings of $name', ({ job, sizing }) => {
  it.each(formats)('draws the panel to the stated standard scale on %s', (format) => {
    const draft = elevationDraft(job, sizing, format);
    const panel = extentsOf(on(draft.marks, 'PANEL'));
    expect(scales).toContain(draft.perPaper);
    expect((panel.x1 - panel.x0) * draft.perPaper).toBeCloseTo(job.panel.width_mm, 6);
    expect((panel.y1 - panel.y0) * draft.perPaper).toBeCloseTo(job.panel.height_mm, 6);
  });

  it.each(formats)('draws the build-up to the stated standard scale on %s', (format) => {
    const draft = sectionDrafts(job, sizing, format)[0]!;
    const boards = extentsOf(on(draft.marks, 'BOARDS'));
    const { front, cavity_mm, backing } = job.section;
    expect(scales).toContain(draft.perPaper);
    expect((boards.y1 - boards.y0) * draft.perPaper).toBeCloseTo(
      front.thickness_mm + cavity_mm + backing.thickness_mm,
      6,
    );
  });

  it.each(formats)('keeps drawings inside the body of a sheet of %s', (format) => {
    const body = bodyOf(format);
    const sheets = [
      elevationDraft(job, sizing, format).marks,
      ...sectionDrafts(job, sizing, format).map(({ marks }) => marks),
      ...singleLineSheets(job, sizing, body),
    ];
    for (const marks of sheets) {
      const { x0, y0, x1, y1 } = extentsOf(marks);
      expect(Math.min(x0 - body.x0, y0 - body.y0, body.x1 - x1, body.y1 - y1)).toBeGreaterThan(-1e-9);
    }
  });

  it('draws every slot, every run and every feed point where the set-out has them', () => {
    const { marks } = elevation(job, sizing, 20);
    const { slots, runs } = sizing.setOut;
    expect(on(marks, 'SLOTS')).toHaveLength(slots.length);
    expect(on(marks, 'STRIP')).toHaveLength(runs.length);
    const dots = on(marks, 'FEED_POINTS').flatMap((mark) => (mark.kind === 'circle' ? [mark.centre] : []));
    expect(dots).toEqual(
      slots.flatMap((slot) =>
        runs
          .filter((run) => run.slot === slot.id)
          .flatMap((run) => run.feedPoints.map((f) => [f.x_mm, f.y_mm])),
      ),
    );
  });

  it('names every cable and every feed point with its cable in the elevation, once', () => {
    const texts = textsOf(on(elevation(job, sizing, 1).marks, 'CABLE_REFS'));
    for (const { id } of sizing.cables) {
      const naming = texts.filter((text) => text.split(/\s+/).includes(id));
      expect(naming.length, id).toBeGreaterThan(0);
    }
    for (const { id } of sizing.setOut.runs.flatMap((run) => run.feedPoints))
      expect(
        texts.filter((text) => text.startsWith(id)),
        id,
      ).toHaveLength(1);
  });

  it.each(formats)('has every cable once and every driver in the single-line diagram on %s', (format) => {
    const texts = textsOf(singleLineSheets(job, sizing, bodyOf(format)).flat());
    for (const { id } of sizing.cables)
      expect(texts.filter((text) => text.startsWith(`${id}  `))).toHaveLength(1);
    for (const { id } of sizing.drivers.drivers) expect(texts).toContain(id);
  });
});

describe('SVG', () => {
  it('escapes what a name may hold', () => {
    const { job, sizing } = demos[0]!;
    const named = { ...job, title: { ...job.title, job: '<b> & "x"' } };
    const svg = svgOf(
      { width_mm: 297, height_mm: 210 },
      elevationDraft(named, sizing, 'A4').marks,
      '<b> & "x"',
    );
    expect(svg).toContain('<title>&lt;b&gt; &amp; &quot;x&quot;</title>');
    expect(svg).not.toContain('<b>');
  });
});
