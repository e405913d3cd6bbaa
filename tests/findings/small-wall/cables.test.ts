import { describe, expect, it } from 'vitest';
import { cableFindings } from '../../../src/findings/cable-findings.ts';
import { isTold, told, type Wall, wall } from './wall.ts';

const at = (id: string, change?: (wall: Wall) => void) => told(cableFindings(wall(change)), id);
const is = (id: string, change?: (wall: Wall) => void) => isTold(cableFindings(wall(change)), id);

describe('current in a cable', () => {
  // 0.6 of 9 A, 0.5 of 5 A and 0.3 of 9 A: C02 is the fullest, though C01 carries most.
  it('is that of the cable nearest to what it may carry', () => {
    expect(at('cable-capacity')).toMatchObject({
      ...{ status: 'passes', value: 0.5, limit: 5, margin: 4.5, unit: 'A', fields: [] },
      place: { cable: 'C02', field: 'cables.entry' },
      sentence:
        'Cable C02 carries 0.50 A at most and may carry 5.00 A where it is hottest: in the panel, 1 circuit alone, 40 °C around.',
    });
  });

  it('passes at the limit and fails over it', () => {
    const carrying = (current_A: number) =>
      at('cable-capacity', ({ cables }) => (cables[1]!.current_A = current_A));
    expect(carrying(5)).toMatchObject({ status: 'passes', margin: 0, fields: [] });
    expect(carrying(5.01)).toMatchObject({ status: 'fails', margin: -0.01, fields: ['cables.entry'] });
    expect(carrying(5.01).advice).toEqual(['Take a thicker cable than 1.5 mm².']);
  });

  // 0.6 A as solved, 8 A should another feed be dead.
  it('is what it may be left to carry where another is dead', () => {
    const left = (design_A: number) => at('cable-capacity', ({ cables }) => (cables[0]!.design_A = design_A));
    expect(left(8)).toMatchObject({
      status: 'passes',
      value: 8,
      limit: 9,
      margin: 1,
      place: { cable: 'C01' },
    });
    expect(left(9.5)).toMatchObject({ status: 'fails', value: 9.5, margin: -0.5 });
  });

  it('is never passed where the bunch is beyond the tables, which the largest says', () => {
    const bunched = at('cable-capacity', ({ cables }) => {
      for (const [i, count] of [22, 28, 25].entries()) {
        cables[i]!.stretches[1]!.togetherCount = count;
        cables[i]!.capacityNote = `Beyond for ${count}.`;
      }
    });
    expect(bunched).toMatchObject({ status: 'watch', margin: 4.5, fields: ['drivers.places'] });
    expect(bunched.sentence).toMatch(/ around\. Beyond for 28\.$/);
  });

  it('is eased by a cable each where several feeds hang on one', () => {
    const trunk = at('cable-capacity', ({ cables, job }) => {
      cables[1]!.current_A = 6;
      job.cables.layout = 'trunk';
    });
    expect(trunk.fields).toEqual(['cables.entry', 'cables.layout']);
  });
});

describe('conductor area', () => {
  const area = (area_mm2: number) => (made: Wall) => {
    made.products.cable.area_mm2 = area_mm2;
    for (const cable of made.cables) cable.area_mm2 = area_mm2;
  };

  it('is not spoken of at 1.5 mm², nor for what is lost in the last bits', () => {
    expect(is('cable-area')).toBe(false);
    expect(is('cable-area', area(1.5 - 1e-12))).toBe(false);
    expect(is('cable-area', area(1.5 - 1e-6))).toBe(true);
  });

  // C01 to C03 are 2000, 3000 and 3001 mm long: up to 3 m flexible cable of 1 mm² will do.
  it('of 1 mm² is too little beyond 3 m', () => {
    expect(at('cable-area', area(1))).toMatchObject({
      ...{ status: 'watch', value: 1, limit: 1.5, margin: -0.5, unit: 'mm²', fields: ['cables.entry'] },
      place: { cable: 'C03', field: 'cables.entry' },
    });
    expect(at('cable-area', area(1)).sentence).toMatch(/^Cable C03 has 1 mm² conductors;/);
  });

  it('is not asked of a link inside a place', () => {
    const thinLink = (made: Wall): void => {
      Object.assign(made.cables[0]!, { kind: 'link', area_mm2: 0.5 });
    };
    expect(is('cable-area', thinLink)).toBe(false);
  });

  it('of 0.75 mm² is too little for all of them', () => {
    expect(at('cable-area', area(0.75))).toMatchObject({
      value: 0.75,
      margin: -0.75,
      place: { cable: 'C01' },
    });
    expect(at('cable-area', area(0.75)).sentence).toMatch(
      /^Cables C01, C02 and C03 have 0\.75 mm² conductors;/,
    );
  });
});

describe('protection', () => {
  const bare =
    (...numbers: number[]) =>
    ({ cables }: Wall) => {
      for (const number of numbers) cables[number - 1]!.protectedBy = 'nothing';
    };

  it('fails for each cable without', () => {
    expect(is('cable-fuse')).toBe(false);
    expect(is('cable-fuse', ({ cables }) => (cables[0]!.protectedBy = 'driver'))).toBe(false);
    expect(at('cable-fuse', bare(2))).toMatchObject({
      ...{ status: 'fails', value: 1, limit: 0, margin: -1, fields: ['cables.entry'] },
      place: { cable: 'C02', field: 'cables.entry' },
      sentence: 'No standard fuse lies between what cable C02 carries and may carry.',
    });
    expect(at('cable-fuse', bare(2, 3))).toMatchObject({
      ...{ value: 2, margin: -2, place: { cable: 'C02' } },
      sentence: 'No standard fuse lies between what cables C02 and C03 carry and may carry.',
    });
  });
});

describe('a short at the far end', () => {
  const unnoticed =
    (...numbers: number[]) =>
    ({ cables }: Wall) => {
      for (const number of numbers) cables[number - 1]!.farShortNoticed = false;
    };

  // Shorts of 4, 3 and 5 A.
  it('is told where nothing notices it, with the largest of them', () => {
    expect(is('far-short')).toBe(false);
    expect(at('far-short', unnoticed(2))).toMatchObject({
      ...{
        status: 'watch',
        value: 1,
        limit: 0,
        margin: -1,
        fields: ['cables.entry', 'cables.fuses', 'drivers.entry'],
      },
      place: { cable: 'C02', field: 'cables.entry' },
    });
    expect(at('far-short', unnoticed(2)).sentence).toMatch(
      /^A short at the far end of what cable C02 feeds would draw about 3\.00 A/,
    );
    // Nothing opens at less than an electronic channel; and no other kind helps where no fuse stands.
    const { fields } = at('far-short', (w) => {
      unnoticed(2)(w);
      w.job.cables.fuses = 'electronic';
    });
    expect(fields).toEqual(['cables.entry', 'drivers.entry']);
    const unfused = at('far-short', (w) => {
      unnoticed(2)(w);
      w.cables[1]!.fuse_A = null;
    });
    expect(unfused.fields).toEqual(['cables.entry', 'drivers.entry']);
    // A fuse is spoken of only where one stands, and by its own: F2, a cartridge of 1 A, four times that.
    const fused = at('far-short', (w) => {
      unnoticed(2)(w);
      w.installation.blocks = [
        { ways: [{ fuse: { id: 'F2', name: 'cartridge', standard: 'IEC 60127-2', opens_A: 4 } }] },
      ] as never;
    });
    expect(fused.sentence).toContain('too little to open the fuse or to stop the driver');
    expect(fused.basis).toContain('F2 (cartridge, IEC 60127-2) opens within 5 s from 4.00 A, drivers limit');
    expect(JSON.stringify(unfused)).not.toContain('fuse');
    const two = at('far-short', unnoticed(2, 3));
    expect(two).toMatchObject({ value: 2, margin: -2, place: { cable: 'C03' } });
    expect(two.sentence).toContain('what cables C02 and C03 feed would draw about 5.00 A');
  });
});

it('a wall in order has one finding of cables, which passes', () => {
  expect(cableFindings(wall()).map(({ id, status }) => [id, status])).toEqual([['cable-capacity', 'passes']]);
});

describe('the cores of a cable', () => {
  it('are no question where it is sold with as many', () => {
    expect(is('cable-cores')).toBe(false);
  });

  // Sold with 2 cores; the second cable needs 5 of them, the third 3.
  it('fail where it is not, by the cable that needs most', () => {
    const short = at('cable-cores', ({ cables }) => {
      for (const [i, conductorCount] of [5, 3].entries())
        Object.assign(cables[i + 1]!, { conductorCount, soldCoreCount: null });
    });
    expect(short).toMatchObject({
      ...{ status: 'fails', value: 5, limit: 2, margin: -3, fields: ['cables.data.coreCounts'] },
      place: { cable: 'C02', field: 'cables.entry' },
      sentence: 'Cables C02 and C03 need 5 cores at most, and Cable of the small wall is sold with 2.',
    });
  });
});
