import { describe, expect, it } from 'vitest';
import { casesIn } from '../../server/papers/drawings/driver-cases.ts';
import { elevation } from '../../server/papers/drawings/elevation.ts';
import { scales } from '../../server/papers/drawings/scale.ts';
import { singleLineSheets } from '../../server/papers/drawings/single-line.ts';
import { dxfOf } from '../../server/papers/ink/dxf.ts';
import {
  extentsOf,
  type Lettering,
  letteringCorners,
  type Mark,
  type Point,
} from '../../server/papers/ink/mark.ts';
import { svgOf } from '../../server/papers/ink/svg.ts';
import { driverPlacesDrafts } from '../../server/papers/sheets/driver-places-sheet.ts';
import { elevationDraft } from '../../server/papers/sheets/elevation-sheet.ts';
import { sectionDrafts } from '../../server/papers/sheets/section-sheet.ts';
import { bodyOf } from '../../server/papers/sheets/sheet.ts';
import type { Job } from '../../src/index.ts';
import { resolveProducts } from '../../src/job/resolve.ts';
import { demos, unusual } from './jobs.ts';

const all = [...demos, ...unusual];
const formats = ['A4', 'A3'] as const;

const on = (marks: readonly Mark[], layer: Mark['layer']): Mark[] =>
  marks.filter((mark) => mark.layer === layer);
function products(job: Job) {
  const outcome = resolveProducts(job);
  if (!outcome.ok) throw new RangeError('products of a test job do not resolve');
  return outcome.value;
}

type Quad = readonly Point[];

/** Whether a point lies well inside a box turned as it may be: on the inner side of all four sides, counted by areas. */
function isInside([x, y]: Point, quad: Quad): boolean {
  const turns = quad.map(([ax, ay], i) => {
    const [bx, by] = quad[(i + 1) % 4]!;
    return ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / Math.hypot(bx - ax, by - ay);
  });
  return turns.every((turn) => turn > 1e-3) || turns.every((turn) => turn < -1e-3);
}

/** Points all over a box: close along its sides from the first corner to the second, where lettering runs. */
function pointsIn(quad: Quad): Point[] {
  const [a, b, , d] = quad as [Point, Point, Point, Point];
  const shares = (count: number): number[] => Array.from({ length: count + 1 }, (_, i) => i / count);
  return shares(60).flatMap((s) =>
    shares(6).map((t): Point => {
      return [a[0] + s * (b[0] - a[0]) + t * (d[0] - a[0]), a[1] + s * (b[1] - a[1]) + t * (d[1] - a[1])];
    }),
  );
}

const isFar = (one: Quad, other: Quad): boolean =>
  [0, 1].some((axis) => {
    const [mine, theirs] = [one, other].map((quad) => quad.map((point) => point[axis]!));
    return Math.max(...mine!) < Math.min(...theirs!) || Math.max(...theirs!) < Math.min(...mine!);
  });

const touches = (one: Quad, other: Quad): boolean =>
  !isFar(one, other) &&
  (pointsIn(one).some((point) => isInside(point, other)) ||
    pointsIn(other).some((point) => isInside(point, one)));

/** The box of figures and capitals: 0.73 em high, as wide as the widths of its letters. */
const boxOf = (mark: Lettering): Quad => letteringCorners(mark, { above: 0.73, below: 0 });

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

  it.each(formats)(
    'keeps every label of the elevation clear of slots and of other labels on %s',
    (format) => {
      const { marks } = elevationDraft(job, sizing, format);
      const labels = marks.flatMap((mark) =>
        mark.kind === 'text' && mark.layer !== 'LETTERING' ? [{ text: mark.text, box: boxOf(mark) }] : [],
      );
      const slots = on(marks, 'SLOTS').flatMap((mark) => (mark.kind === 'path' ? [mark.points] : []));
      expect(labels.length).toBeGreaterThan(sizing.setOut.slots.length);
      for (const [i, { text, box }] of labels.entries()) {
        expect(slots.filter((slot) => touches(box, slot)).length, text).toBe(0);
        const hit = labels.slice(i + 1).filter((other) => touches(box, other.box));
        expect(
          hit.map((other) => other.text),
          text,
        ).toEqual([]);
      }
    },
  );

  it('says in the elevation where labels are left out', () => {
    for (const format of formats) {
      const { marks } = elevationDraft(job, sizing, format);
      const words = textsOf(on(marks, 'CABLE_REFS')).flatMap((text) => text.split(/\s+/));
      const unnamed = sizing.cables.filter(({ id }) => !words.includes(id));
      const said = textsOf(marks).join(' ');
      expect(/Cables without room|One slot in/.test(said)).toBe(unnamed.length > 0);
    }
  });

  it('puts every driver into its place, clear of its neighbours, and lists where it is', () => {
    const clearance_mm = products(job).driver.clearance_mm;
    const drawn = job.drivers.places.flatMap((place) => {
      const { cases, without } = casesIn(place, sizing);
      const answer = sizing.drivers.places.find(({ name }) => name === place.name)!;
      expect(without.length === 0).toBe(answer.fits);
      for (const { box } of cases) {
        expect(box.x0 - place.x_mm).toBeGreaterThan(clearance_mm - 1e-6);
        expect(box.y0 - place.y_mm).toBeGreaterThan(clearance_mm - 1e-6);
        expect(place.x_mm + place.width_mm - box.x1).toBeGreaterThan(clearance_mm - 1e-6);
        expect(place.y_mm + place.height_mm - box.y1).toBeGreaterThan(clearance_mm - 1e-6);
      }
      for (const [i, { box }] of cases.entries())
        for (const { box: other } of cases.slice(i + 1)) {
          const across = Math.max(box.x0 - other.x1, other.x0 - box.x1);
          const up = Math.max(box.y0 - other.y1, other.y0 - box.y1);
          expect(Math.max(across, up)).toBeGreaterThan(clearance_mm - 1e-6);
        }
      return [...cases.map(({ id }) => id), ...without];
    });
    expect(drawn.toSorted()).toEqual(sizing.drivers.drivers.map(({ id }) => id).toSorted());
    for (const format of formats) {
      const texts = textsOf(driverPlacesDrafts(job, sizing, format).flatMap(({ marks }) => marks));
      for (const id of drawn) expect(texts.filter((text) => text === id).length, id).toBeGreaterThan(1);
    }
  });

  it.each(formats)('has section and temperatures on one sheet of %s', (format) => {
    const drafts = sectionDrafts(job, sizing, format);
    expect(drafts).toHaveLength(1);
    const texts = textsOf(drafts[0]!.marks);
    for (const { name } of sizing.heat.temperatures) expect(texts).toContain(name);
  });
});

describe('DXF', () => {
  it('has no patches of bare paper', () => {
    const { job, sizing } = demos[0]!;
    const { marks } = elevation(job, sizing, 20);
    expect(on(marks, 'PAPER').length).toBeGreaterThan(0);
    expect(dxfOf(marks, 20)).not.toContain('PAPER');
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
