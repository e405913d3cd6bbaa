import { describe, expect, it } from 'vitest';
import { casesIn } from '../../server/papers/drawings/driver-cases.ts';
import { elevation } from '../../server/papers/drawings/elevation.ts';
import { labelPlan } from '../../server/papers/drawings/elevation-labels.ts';
import { scales } from '../../server/papers/drawings/scale.ts';
import { section } from '../../server/papers/drawings/section.ts';
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
import { demos, laidOut, unusual } from './jobs.ts';

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

  it('names every cable on the wall and every feed point with its cable in the elevation, once', () => {
    const texts = textsOf(on(elevation(job, sizing, 1).marks, 'CABLE_REFS'));
    for (const { id } of sizing.cables.filter(({ kind }) => kind !== 'link')) {
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
    'keeps every label of the elevation clear of slots, taps and other labels on %s',
    (format) => {
      const { marks } = elevationDraft(job, sizing, format);
      const labels = marks.flatMap((mark) =>
        mark.kind === 'text' && mark.layer !== 'LETTERING' ? [{ text: mark.text, box: boxOf(mark) }] : [],
      );
      const slots = ['SLOTS' as const, 'TAPS' as const].flatMap((layer) =>
        on(marks, layer).flatMap((mark) => (mark.kind === 'path' ? [mark.points] : [])),
      );
      // Beyond the ends, only slots that are fed there are labelled.
      const { where } = labelPlan(sizing, elevationDraft(job, sizing, format).perPaper);
      if (where === 'beside') expect(labels.length).toBeGreaterThan(sizing.setOut.slots.length);
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
      const unnamed = sizing.cables.filter(({ id, kind }) => kind !== 'link' && !words.includes(id));
      const said = textsOf(marks).join(' ');
      expect(/Cables without room|One slot in/.test(said)).toBe(unnamed.length > 0);
    }
  });

  it('puts every driver, dimmer and block into its place, clear of its neighbours, and lists where it is', () => {
    // A block or a dimmer needs less air than a driver; between two cases it is the larger of theirs.
    const drivers = new Set(sizing.drivers.drivers.map(({ id }) => id));
    const air_mm = (id: string): number => (drivers.has(id) ? products(job).driver.clearance_mm : 10);
    const drawn = job.drivers.places.flatMap((place) => {
      const { cases, without } = casesIn(place, sizing);
      const answer = sizing.drivers.places.find(({ name }) => name === place.name)!;
      expect(without.length === 0).toBe(answer.fits);
      for (const { id, box } of cases) {
        const clearance_mm = air_mm(id);
        expect(box.x0 - place.x_mm).toBeGreaterThan(clearance_mm - 1e-6);
        expect(box.y0 - place.y_mm).toBeGreaterThan(clearance_mm - 1e-6);
        expect(place.x_mm + place.width_mm - box.x1).toBeGreaterThan(clearance_mm - 1e-6);
        expect(place.y_mm + place.height_mm - box.y1).toBeGreaterThan(clearance_mm - 1e-6);
      }
      for (const [i, { id, box }] of cases.entries())
        for (const { id: beside, box: other } of cases.slice(i + 1)) {
          const clearance_mm = Math.max(air_mm(id), air_mm(beside));
          const across = Math.max(box.x0 - other.x1, other.x0 - box.x1);
          const up = Math.max(box.y0 - other.y1, other.y0 - box.y1);
          expect(Math.max(across, up)).toBeGreaterThan(clearance_mm - 1e-6);
        }
      return [...cases.map(({ id }) => id), ...without];
    });
    const { blocks, dimmers } = sizing.installation;
    const devices = [...sizing.drivers.drivers, ...dimmers, ...blocks].map(({ id }) => id);
    expect(drawn.toSorted()).toEqual(devices.toSorted());
    for (const format of formats) {
      const texts = textsOf(driverPlacesDrafts(job, sizing, format).flatMap(({ marks }) => marks));
      for (const id of drawn) expect(texts.filter((text) => text === id).length, id).toBeGreaterThan(0);
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

/** Open polylines and lines of a layer in a DXF, each as its points, read by group codes. */
function dxfLines(dxf: string, wanted: string): Point[][] {
  const codes = dxf.split(/\r?\n/);
  const found: Point[][] = [];
  let [kind, layer, points]: [string, string, Point[]] = ['', '', []];
  const close = (): void => {
    if ((kind === 'LINE' || kind === 'LWPOLYLINE') && layer === wanted) found.push(points);
  };
  for (let i = 0; i + 1 < codes.length; i += 2) {
    const [code, value] = [Number(codes[i]), codes[i + 1]!];
    if (code === 0) {
      close();
      [kind, layer, points] = [value.trim(), '', []];
    } else if (code === 8) layer = value.trim();
    else if (code === 10 || code === 11) points.push([Number(value), Number.NaN]);
    else if ((code === 20 || code === 21) && points.length > 0)
      points[points.length - 1] = [points.at(-1)![0], Number(value)];
  }
  return found;
}

const length = (points: readonly Point[]): number =>
  points.slice(1).reduce((sum, [x, y], i) => sum + Math.hypot(x - points[i]![0], y - points[i]![1]), 0);

const onTheWall = ({ job }: { readonly job: Job }): boolean =>
  job.drivers.places.every(({ kind }) => kind === 'box');

describe.each([...demos, ...laidOut].filter(onTheWall))('cables in the DXF of $name', ({ job, sizing }) => {
  const drawn = dxfLines(dxfOf(elevation(job, sizing, 20).marks, 20), 'CABLES');

  it('are one polyline each, from terminals to terminals or pads, and no longer than what is cut', () => {
    const cables = sizing.cables.filter(({ route }) => route.length > 1);
    expect(drawn).toHaveLength(cables.length);
    for (const [i, { id, route, length_mm }] of cables.entries()) {
      expect(length(drawn[i]!), id).toBeGreaterThan(0);
      expect(length_mm, id).toBeGreaterThanOrEqual(length(drawn[i]!));
      expect(drawn[i]![0]![0], id).toBeCloseTo(route[0]!.x_mm, 6);
      expect(drawn[i]![0]![1], id).toBeCloseTo(route[0]!.y_mm, 6);
    }
  });

  it('begin at the terminals of a case, and pass or leave every tap', () => {
    const outs = [
      ...sizing.drivers.places.flatMap(({ cases }) => cases),
      ...[...sizing.installation.blocks, ...sizing.installation.dimmers].flatMap(
        ({ standing }) => standing ?? [],
      ),
    ].map(({ out_x_mm, out_y_mm }): Point => [out_x_mm, out_y_mm]);
    const at = ([x, y]: Point, [px, py]: Point): boolean => Math.hypot(x - px, y - py) < 1e-6;
    const cables = sizing.cables.filter(({ route }) => route.length > 1);
    for (const [i, { from, id }] of cables.entries())
      if (from.kind === 'output' || from.kind === 'block')
        expect(
          outs.some((out) => at(out, drawn[i]![0]!)),
          id,
        ).toBe(true);
    for (const { id, x_mm, y_mm } of sizing.installation.taps) {
      const branches = cables.flatMap(({ from }, i) =>
        from.kind === 'tap' && from.id === id ? [drawn[i]!] : [],
      );
      for (const points of branches) expect(at(points[0]!, [x_mm, y_mm]), id).toBe(true);
    }
  });

  it('has every tap, every hole and every case that stands', () => {
    const { marks } = elevation(job, sizing, 20);
    expect(on(marks, 'TAPS')).toHaveLength(sizing.installation.taps.length);
    const standing = [...sizing.installation.blocks, ...sizing.installation.dimmers].filter(
      (each) => each.standing,
    );
    const cases = sizing.drivers.places.flatMap(({ cases: here }) => here);
    const outlines = on(marks, 'DRIVERS').filter((mark) => mark.kind === 'path' && !mark.filled);
    expect(outlines).toHaveLength(standing.length + cases.length);
    expect(on(marks, 'EXITS').length).toBeGreaterThan(0);
  });
});

describe('a remote place', () => {
  it('is a box with its name beside the panel, its line broken and its length of cable said', () => {
    const { job, sizing } = laidOut.find(({ name }) => name === 'remote place')!;
    const { marks } = elevation(job, sizing, 15);
    const box = extentsOf(on(marks, 'DRIVER_PLACES'));
    expect(box.y1).toBeLessThan(0);
    expect(on(marks, 'BREAKS')).toHaveLength(2);
    // Drivers are not drawn at a spot on the wall that they do not have.
    expect(on(marks, 'DRIVERS')).toHaveLength(0);
    const said = textsOf(on(marks, 'DRIVER_NAMES')).join(' ');
    expect(said).toContain('not to scale: 6.5 m of cable to the panel at x 200');
    // Cables are drawn from where they enter the panel.
    const cables = on(marks, 'CABLES').flatMap((mark) => (mark.kind === 'path' ? [extentsOf([mark])] : []));
    for (const { y0 } of cables) expect(y0).toBeGreaterThan(box.y1 - 1e-9);
  });
});

describe('a remote place on the sheet of driver places', () => {
  const { job, sizing } = laidOut.find(({ name }) => name === 'remote place')!;
  const [draft] = driverPlacesDrafts(job, sizing, 'A3');
  const texts = textsOf(draft!.marks);

  it('is to scale, and measured from its own corner, since the panel is elsewhere', () => {
    const [place] = job.drivers.places;
    expect([place!.x_mm, place!.y_mm]).toEqual([200, -140]);
    // D1 begins 20 mm inside the place, as its maker asks for, whatever corner the place is written at.
    const row = texts.indexOf('D1', texts.indexOf('Device'));
    expect(texts.slice(row, row + 4)).toEqual(['D1', place!.name, '20', '20']);
    expect(texts.join(' ')).toContain(`in ${place!.name} from that of the place`);
    expect(texts.join(' ')).toContain('remote: 6.5 m of cable to the panel at x 200');
    expect(texts.join(' ')).not.toContain('not to scale');
  });

  it('has the hole its cables leave by, to which their lengths are counted', () => {
    expect(on(draft!.marks, 'EXITS')).toHaveLength(1);
    expect(on(draft!.marks, 'CABLES').length).toBeGreaterThan(1);
  });
});

describe('dimensions', () => {
  it.each([...demos, ...unusual, ...laidOut])(
    'run through no driver place of the elevation: $name',
    (sized) => {
      for (const perPaper of [10, 25]) {
        const { marks } = elevation(sized.job, sized.sizing, perPaper);
        const places = on(marks, 'DRIVER_PLACES').map((mark) => extentsOf([mark]));
        const upright = on(marks, 'DIMENSIONS').flatMap((mark) => {
          const { x0, x1, y0, y1 } = extentsOf([mark]);
          return mark.kind === 'path' && x1 - x0 < 1e-6 ? [{ x: x0, y0, y1 }] : [];
        });
        // The panel's width, and edge, first slot, last slot, edge: six at most, four where slots reach the edges.
        expect(upright.length).toBeGreaterThan(3);
        const through = places.filter((place) =>
          upright.some(
            ({ x, y0, y1 }) => x > place.x0 && x < place.x1 && y0 < place.y1 - 1e-6 && y1 > place.y0 + 1e-6,
          ),
        );
        expect(through).toEqual([]);
      }
    },
  );

  it('say how far beside its slot the strip lies, in the section and in words in the elevation', () => {
    // The window seat: 24 mm to the right of the middle of the slot, on the front.
    const { job, sizing } = demos[0]!;
    expect(job.section).toMatchObject({ strip: 'front', stripOffset_mm: 24 });
    const { marks } = section(job, sizing, 0.5);
    expect(textsOf(marks)).toContain('24 to the middle of the strip');
    const { x0, x1 } = extentsOf(on(marks, 'STRIP'));
    expect((x0 + x1) / 2).toBeCloseTo(24, 9);
    const extension = on(marks, 'DIMENSIONS').find((mark) => {
      const at = extentsOf([mark]);
      return Math.abs(at.x0 - 24) < 1e-6 && Math.abs(at.x1 - 24) < 1e-6;
    });
    expect(extension).toBeDefined();
    const said = textsOf(elevationDraft(job, sizing, 'A3').marks).join(' ');
    expect(said).toContain('the strip lies 24 to one side of it');
    const middle = demos[1]!;
    expect(textsOf(section(middle.job, middle.sizing, 0.5).marks).join()).not.toContain(
      'middle of the strip',
    );
    expect(textsOf(elevationDraft(middle.job, middle.sizing, 'A3').marks).join()).not.toContain(
      'to one side',
    );
  });
});

describe('a profile in the section', () => {
  const drawn = (name: string) => {
    const { job, sizing } = unusual.find((each) => each.name === name)!;
    return section(job, sizing, 0.5).marks;
  };

  it.each([
    // 12 mm inside and walls of 1.5 mm, 1.5 mm of base and 10 mm of wall, the cover 1.5 mm over them.
    ['profile on the backing', 15, 11.5],
    ['profile in the slot', 15, 11.5],
    ['profile at the side', 11.5, 15],
  ])('%s: is drawn to its measures, with its cover and the strip in it', (name, across, deep) => {
    const marks = drawn(name);
    const { x0, x1, y0, y1 } = extentsOf(on(marks, 'ALUMINIUM_PROFILE'));
    expect([x1 - x0, y1 - y0].map((length) => Number(length.toFixed(6)))).toEqual([across, deep]);
    expect(on(marks, 'COVER').length).toBeGreaterThan(0);
    const strip = extentsOf(on(marks, 'STRIP'));
    expect([strip.x0 > x0, strip.x1 < x1, strip.y0 > y0, strip.y1 < y1]).toEqual([true, true, true, true]);
    expect(textsOf(marks).join(' ')).toContain('U section, 12 × 10 mm inside');
  });

  it('in the slot lies with its cover in the room face', () => {
    expect(extentsOf(on(drawn('profile in the slot'), 'COVER')).y0).toBeCloseTo(0, 9);
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
