import { describe, expect, it } from 'vitest';
import { openingFindings } from '../../../src/findings/opening-findings.ts';
import type { Opening } from '../../../src/job/opening.ts';
import { isTold, told, type Wall, wall } from './wall.ts';

/** A door from 400 to 600 mm, 700 mm high, and a window of 100 x 100 mm at 800, 900 mm without a name. */
const door: Opening = {
  name: 'Door',
  kind: 'opening',
  cablesPass: false,
  x_mm: 400,
  y_mm: 0,
  width_mm: 200,
  height_mm: 700,
  rim_mm: 0,
};
const window: Opening = {
  name: ' ',
  kind: 'opening',
  cablesPass: false,
  x_mm: 800,
  y_mm: 900,
  width_mm: 100,
  height_mm: 100,
  rim_mm: 0,
};

const findings = (change: (wall: Wall) => unknown = () => {}) =>
  openingFindings(
    wall((made) => {
      made.job.openings = [door, window];
      change(made);
    }),
  );

it('openings nothing goes through have no findings, nor has a wall without any', () => {
  expect(findings()).toEqual([]);
  expect(openingFindings(wall())).toEqual([]);
});

describe('cables through an opening', () => {
  const through =
    (opening: number, ...cables: string[]) =>
    ({ installation }: Wall) =>
      Object.assign(installation, { throughOpenings: [{ opening, cables }] });

  it('fail, are counted and named, and lead to the way, to the drivers on both sides', () => {
    const two = findings(through(0, 'C02', 'C03'));
    expect(two).toHaveLength(1);
    expect(told(two, 'opening-cables-1')).toMatchObject({
      ...{ question: 'cables', status: 'fails', value: 2, limit: 0, margin: -2, unit: '' },
      ...{ place: { cable: 'C02', field: 'cables.way' }, title: 'Cables past Door' },
      fields: ['cables.way', 'drivers.places'],
    });
    expect(told(two, 'opening-cables-1').sentence).toMatch(
      /^Cables C02 and C03 would run through Door, 200.mm wide: there is no way round it/,
    );
  });

  it('of one without a name are told by its number', () => {
    const one = told(findings(through(1, 'C01')), 'opening-cables-2');
    expect(one).toMatchObject({ value: 1, margin: -1, title: 'Cables past opening 2' });
    expect(one.sentence).toMatch(/^Cable C01 would run through opening 2, 100.mm wide/);
  });

  it.each([
    ['head', 'foot'],
    ['foot', 'head'],
  ] as const)('along the %s may go along the %s', (way, other) => {
    const { advice } = told(
      findings((made) => {
        through(0, 'C01')(made);
        made.job.cables.way = way;
      }),
      'opening-cables-1',
    );
    expect(advice[0]).toBe(`Run the cables along the ${other} instead of along the ${way}.`);
  });

  it('past one from edge to edge of the panel are only spared by drivers on both sides', () => {
    const past = (y_mm: number, more_mm: number) =>
      told(
        findings((made) => {
          through(0, 'C01')(made);
          made.job.cables.layout = 'trunk';
          made.job.openings = [{ ...door, y_mm, height_mm: made.job.panel.height_mm + more_mm }];
        }),
        'opening-cables-1',
      );
    expect(past(0, 0)).toMatchObject({
      ...{ fields: ['drivers.places'], place: { field: 'drivers.places' } },
      advice: ['Put a place for drivers on each side of the opening.'],
    });
    expect(past(-50, 100).fields).toEqual(['drivers.places']);
    // A millimetre of panel is left above, or below.
    expect(past(0, -1).fields).toHaveLength(3);
    expect(past(1, 0).fields).toHaveLength(3);
  });

  it('of one layout for several slots may be cables of their own', () => {
    const { fields } = told(
      findings((made) => {
        through(0, 'C01')(made);
        made.job.cables.layout = 'trunk';
      }),
      'opening-cables-1',
    );
    expect(fields).toEqual(['cables.way', 'cables.layout', 'drivers.places']);
  });
});

describe('a place for drivers in an opening', () => {
  type Box = [x_mm: number, y_mm: number, width_mm: number, height_mm: number];
  const riser =
    ([x_mm, y_mm, width_mm, height_mm]: Box) =>
    ({ job }: Wall) =>
      void Object.assign(job.drivers.places[1]!, { x_mm, y_mm, width_mm, height_mm });

  it('fails and is to be moved', () => {
    const inIt = findings(riser([500, 100, 50, 50]));
    expect(inIt).toHaveLength(1);
    expect(told(inIt, 'opening-place-1-2')).toMatchObject({
      ...{ question: 'drivers', status: 'fails', value: 1, limit: 0, margin: -1, unit: '' },
      ...{ place: { field: 'drivers.places[2].x_mm' }, title: 'Riser and Door' },
      sentence: 'Riser lies, at least in part, in Door.',
      ...{ fields: ['drivers.places[2].x_mm'], advice: ['Move Riser beside the opening.'] },
    });
    expect(told(findings(riser([820, 920, 10, 10])), 'opening-place-2-2').title).toBe('Riser and opening 2');
  });

  // The door is 400 to 600 mm along and 0 to 700 mm up.
  it.each<[string, Box, Box]>([
    ['left of', [300, 100, 100, 50], [300, 100, 101, 50]],
    ['right of', [600, 100, 100, 50], [599, 100, 100, 50]],
    ['below', [450, -100, 50, 100], [450, -100, 50, 101]],
    ['above', [450, 700, 50, 100], [450, 699, 50, 100]],
  ])(
    'does not where it stands %s it, touching it, but from the first millimetre in it',
    (_, beside, inside) => {
      expect(isTold(findings(riser(beside)), 'opening-place-1-2')).toBe(false);
      expect(isTold(findings(riser(inside)), 'opening-place-1-2')).toBe(true);
    },
  );

  it('does not where it is remote', () => {
    const remote = findings((made) => {
      riser([500, 100, 50, 50])(made);
      made.job.drivers.places[1]!.kind = 'remote';
    });
    expect(remote).toEqual([]);
  });
});
