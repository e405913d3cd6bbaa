import { describe, expect, it } from 'vitest';
import { driverPlaceFindings } from '../../../src/findings/driver-place-findings.ts';
import { isTold, told, type Wall, wall } from './wall.ts';

type Box = [x_mm: number, y_mm: number, width_mm: number, height_mm: number];

/** The riser moved to a place; the plinth stays below the panel. */
const riser =
  ([x_mm, y_mm, width_mm, height_mm]: Box, depth_mm = 90) =>
  ({ job }: Wall) =>
    void Object.assign(job.drivers.places[1]!, { x_mm, y_mm, width_mm, height_mm, depth_mm });

const findings = (box: Box, depth_mm?: number) => driverPlaceFindings(wall(riser(box, depth_mm)));
const isOver = (box: Box) => isTold(findings(box), 'driver-place-slots-2');

it('places outside the panel have no findings', () => {
  expect(driverPlaceFindings(wall())).toEqual([]);
});

describe('depth inside the panel', () => {
  // Between the slots at 200 and 500 mm; the build-up is 40 mm deep.
  const between: Box = [250, 300, 200, 100];

  it('is to be watched beyond the build-up', () => {
    expect(findings(between, 40)).toEqual([]);
    const deep = told(findings(between, 41), 'driver-place-depth-2');
    expect(deep).toMatchObject({
      ...{ status: 'watch', value: 41, limit: 40, margin: -1, unit: 'mm' },
      place: { field: 'drivers.places[2].depth_mm' },
      fields: ['drivers.places[2].depth_mm', 'drivers.places[2].y_mm'],
      title: 'Depth of Riser inside the panel',
    });
    expect(deep.sentence).toContain('is 41 mm deep, where the build-up is 40 mm');
    expect(deep.sentence).toContain('opened by 1 mm.');
  });

  // The panel is 1000 mm wide and 1200 mm high.
  it.each<[string, Box, Box]>([
    ['left of', [-50, 300, 50, 100], [-50, 300, 51, 100]],
    ['right of', [1000, 300, 50, 100], [999, 300, 50, 100]],
    ['below', [250, -100, 200, 100], [250, -100, 200, 101]],
    ['above', [250, 1200, 200, 100], [250, 1199, 200, 100]],
  ])('does not matter %s it, touching it, but from the first millimetre in it', (_, outside, inside) => {
    expect(isTold(findings(outside), 'driver-place-depth-2')).toBe(false);
    expect(isTold(findings(inside), 'driver-place-depth-2')).toBe(true);
  });
});

describe('slots over a driver place', () => {
  // Slots of 20 mm at 200, 500 and 800 mm, from 100 to 1100 mm up.
  it('fail, and are named', () => {
    const one = told(findings([180, 300, 100, 100], 40), 'driver-place-slots-2');
    expect(one).toMatchObject({
      ...{ status: 'fails', value: 1, limit: 0, margin: -1, fields: ['drivers.places[2].y_mm'] },
      place: { slot: 'S01', field: 'drivers.places[2].y_mm' },
      sentence: 'Riser lies behind slot S01, where the strip is.',
    });
    const two = told(findings([400, 300, 500, 100], 40), 'driver-place-slots-2');
    expect(two).toMatchObject({ value: 2, margin: -2, place: { slot: 'S02' } });
    expect(two.sentence).toBe('Riser lies behind slots S02 and S03, where the strip is.');
  });

  // The slot at 200 mm reaches from 190 to 210 mm across, and as far again beyond its ends.
  it.each<[string, Box, Box]>([
    ['to the right', [210, 300, 100, 100], [209, 300, 100, 100]],
    ['to the left', [90, 300, 100, 100], [90, 300, 101, 100]],
    ['above', [150, 1110, 100, 50], [150, 1109, 100, 50]],
    ['below', [150, 0, 100, 90], [150, 0, 100, 91]],
  ])('stop where it lies clear of them %s', (_, clear, over) => {
    expect(isOver(clear)).toBe(false);
    expect(isOver(over)).toBe(true);
  });

  describe('that run another way', () => {
    type Line = [x0_mm: number, y0_mm: number, x1_mm: number, y1_mm: number];
    const isUnder = ([x0_mm, y0_mm, x1_mm, y1_mm]: Line, box: Box) =>
      isTold(
        driverPlaceFindings(
          wall((made) => {
            riser(box)(made);
            made.setOut.slots = [{ ...made.setOut.slots[0]!, x0_mm, y0_mm, x1_mm, y1_mm }];
          }),
        ),
        'driver-place-slots-2',
      );

    it.each<[string, Line]>([
      ['to the right', [100, 600, 900, 600]],
      ['to the left', [900, 600, 100, 600]],
    ])('level, %s', (_, line) => {
      expect(isUnder(line, [400, 610, 100, 100])).toBe(false);
      expect(isUnder(line, [400, 609, 100, 100])).toBe(true);
      expect(isUnder(line, [400, 490, 100, 100])).toBe(false);
      expect(isUnder(line, [400, 491, 100, 100])).toBe(true);
      expect(isUnder(line, [910, 550, 50, 100])).toBe(false);
      expect(isUnder(line, [909, 550, 50, 100])).toBe(true);
      expect(isUnder(line, [40, 550, 50, 100])).toBe(false);
      expect(isUnder(line, [40, 550, 51, 100])).toBe(true);
    });

    // From 100,100 to 900,900: a square of 100 mm at its middle is under it, one in the corner above is not,
    // although the slot passes its columns and its rows, one after the other.
    it.each<[string, Line]>([
      ['rising', [100, 100, 900, 900]],
      ['the same from its other end', [900, 900, 100, 100]],
    ])('slanting, %s', (_, line) => {
      expect(isUnder(line, [450, 450, 100, 100])).toBe(true);
      expect(isUnder(line, [150, 800, 100, 100])).toBe(false);
      expect(isUnder(line, [800, 150, 100, 100])).toBe(false);
      // Half the width of the slot added on every side, its corner just meets the line: 290 and 310.
      expect(isUnder(line, [200, 320, 100, 100])).toBe(false);
      expect(isUnder(line, [200, 319, 100, 100])).toBe(true);
      // Beyond the ends on the line drawn out.
      expect(isUnder(line, [920, 920, 50, 50])).toBe(false);
      expect(isUnder(line, [20, 20, 60, 60])).toBe(false);
    });
  });
});

describe('a place out of reach', () => {
  const shut =
    (...numbers: number[]) =>
    ({ job }: Wall) => {
      for (const number of numbers) job.drivers.places[number - 1]!.reachable = false;
    };
  const block = (
    output: string,
    fuses: readonly (string | null)[],
  ): Wall['installation']['blocks'][number] => ({
    ...{ id: `B${output.slice(1)}`, output, standing: null },
    ways: fuses.map((id, i) => ({
      number: i + 1,
      cables: [],
      fuse:
        id === null
          ? null
          : ({ id } as NonNullable<Wall['installation']['blocks'][number]['ways'][number]['fuse']>),
    })),
  });

  it('fails with what stands there, and says what to do', () => {
    expect(told(driverPlaceFindings(wall(shut(2))), 'driver-place-reach-2')).toMatchObject({
      ...{ question: 'drivers', status: 'fails', value: 1, limit: 0, margin: -1 },
      place: { field: 'drivers.places[2].reachable' },
      basis: 'IEC 60364, clause 715.530.3 (secondary); common practice',
      sentence:
        'Riser is out of reach once the wall is closed, and what stands there has to be got at to be reset, changed or measured: driver D2.',
      fields: ['drivers.places[2].reachable', 'drivers.places[2].x_mm'],
      advice: [
        'Give Riser a door or a panel that comes off, and say that it is within reach.',
        'Move Riser to where a hand gets in.',
      ],
    });
  });

  // D1 with its dimmer, its block and two fuses on three ways: five things; the block of D2 stands with D2.
  it('counts drivers, dimmers, blocks and fuses of its own outputs', () => {
    const full = (made: Wall): void => {
      shut(1)(made);
      made.installation.blocks = [block('D1.1', ['F1.1-1', null, 'F1.1-3']), block('D2.1', ['F2.1-1'])];
      made.installation.dimmers = [
        { id: 'E1.1', name: '', output: 'D1.1', standing: null, channel_A: 5, current_A: 1, loss_W: 0 },
      ];
    };
    const first = told(driverPlaceFindings(wall(full)), 'driver-place-reach-1');
    expect(first).toMatchObject({ value: 5, margin: -5 });
    expect(first.sentence).toMatch(
      /measured: driver D1; dimmer E1\.1; block B1\.1; fuses F1\.1-1 and F1\.1-3\.$/,
    );
  });

  it('is told of each place, of none where nothing stands, and by the rules of the country', () => {
    const ids = (change: (made: Wall) => void) => driverPlaceFindings(wall(change)).map(({ id }) => id);
    expect(ids(shut(1, 2))).toEqual(['driver-place-reach-1', 'driver-place-reach-2']);
    const empty = (made: Wall): void => {
      shut(2)(made);
      made.drivers.drivers.pop();
    };
    expect(ids(empty)).toEqual([]);
    const british = (made: Wall): void => {
      shut(2)(made);
      made.job.site.rules = 'BS 7671';
    };
    expect(driverPlaceFindings(wall(british))[0]!.basis).toMatch(/^BS 7671, regulation 715\.530\.3/);
  });
});

it('a remote place lies elsewhere, though its position is that of a slot', () => {
  const remote = ({ job }: Wall) =>
    void Object.assign(job.drivers.places[1]!, { kind: 'remote', cable_mm: 5000, x_mm: 200, y_mm: 300 });
  expect(driverPlaceFindings(wall(remote))).toEqual([]);
});
