import { describe, expect, it } from 'vitest';
import { dimmerFindings } from '../../../src/findings/dimmer-findings.ts';
import { lightFindings } from '../../../src/findings/light-findings.ts';
import { dimmerCatalogue } from '../../../src/job/dimmer-catalogue.ts';
import { type Wall, wall } from './wall.ts';

const entry = dimmerCatalogue.find(({ id }) => id === '1x5A-push-button')!;

/** The wall with a dimmer behind each of its outputs, the second the busier. */
const dimmed =
  (change: (wall: Wall) => unknown = () => {}) =>
  (given: Wall): void => {
    given.job.dimming.control = 'dimmer';
    given.job.dimming.dimmer = { entry: entry.id, data: {} };
    Object.assign(given.products, { dimmer: { ...entry } });
    given.installation.dimmers = [1.25, 5].map((current_A, i) => ({
      ...{ id: `K${i + 1}.1`, name: entry.name, output: `D${i + 1}.1`, standing: null },
      ...{ channel_A: 5, current_A, loss_W: 1 },
    }));
    change(given);
  };

const found = (change?: (wall: Wall) => unknown) => dimmerFindings(wall(dimmed(change)));

it('a wall without dimmers has no findings of them, one in order passes both', () => {
  expect(dimmerFindings(wall())).toEqual([]);
  expect(found().map(({ id, status }) => [id, status])).toEqual([
    ['dimmer-current', 'passes'],
    ['dimmer-voltage', 'passes'],
  ]);
});

describe('current in a channel', () => {
  it.each([
    [5, 'passes', 0],
    [5.5, 'fails', -0.5],
    [4, 'passes', 1],
  ])('of %d A where 5 A may be: %s', (current_A, status, margin) => {
    const [busiest] = found(({ installation }) => Object.assign(installation.dimmers[1]!, { current_A }));
    expect(busiest).toMatchObject({ status, value: current_A, limit: 5, unit: 'A' });
    expect(busiest!.margin).toBeCloseTo(margin, 12);
    expect(busiest!.sentence).toContain('Dimmer K2.1 carries');
  });

  it('too much of it leads to another dimmer or a lower ceiling, else to nothing', () => {
    const [over] = found(({ installation }) => Object.assign(installation.dimmers[1]!, { current_A: 5.5 }));
    expect(over!.place).toEqual({ field: 'dimming.dimmer.entry' });
    expect(over!.remedies!.map(({ field }) => field)).toEqual([
      'dimming.dimmer.entry',
      'drivers.outputCeiling_W',
    ]);
    expect(found()[0]!.remedies).toEqual([]);
  });

  it('says whose figure the rating is', () => {
    expect(found()[0]!.basis).toMatch(/^typical of the trade/);
    const entered = found(({ job }) => Object.assign(job.dimming.dimmer!, { data: { channel_A: 5 } }));
    expect(entered[0]!.basis).toBe("the dimmer maker's data sheet, as entered");
  });
});

describe('volts at the dimmers', () => {
  // Made for 12 to 24 V.
  it.each([
    [25, 'watch', 24, -1],
    [11, 'watch', 12, -1],
    [24, 'passes', 12, 12],
  ])('set to %d V: %s', (set_V, status, limit, margin) => {
    const volts = found(({ job }) => Object.assign(job.drivers, { set_V }))[1];
    expect(volts).toMatchObject({ status, value: set_V, limit, margin, unit: 'V' });
  });

  it('lead to the drivers or to another dimmer where they are not those it is made for', () => {
    const volts = (set_V: number) => found(({ job }) => Object.assign(job.drivers, { set_V }))[1]!;
    expect(volts(25).place).toEqual({ field: 'drivers.set_V' });
    expect(volts(25).remedies!.map(({ field }) => field)).toEqual(['drivers.set_V', 'dimming.dimmer.entry']);
    expect(volts(25).sentence).toMatch(/12 to 24 V\. Whether it may stand that is on its data sheet\.$/);
    expect(volts(24).remedies).toEqual([]);
    expect(volts(24).sentence).toMatch(/12 to 24 V\.$/);
    // At its least it is made for as well.
    expect(volts(12)).toMatchObject({ status: 'passes', limit: 12, margin: 0 });
  });
});

describe('light by the dimmer that is chosen', () => {
  const light = (id: string, change?: (wall: Wall) => unknown) =>
    lightFindings(wall(dimmed(change))).find((finding) => finding.id === id);

  it('is switched at its frequency, whatever the job says', () => {
    const slow = light('flicker', ({ products }) => Object.assign(products.dimmer!, { frequency_Hz: 1000 }));
    expect(slow).toMatchObject({ status: 'fails', value: 1000, place: { field: 'dimming.dimmer.entry' } });
    expect(
      light('flicker', ({ products }) => Object.assign(products.dimmer!, { frequency_Hz: null })),
    ).toBeUndefined();
  });

  it('goes as low as it says, steady or not', () => {
    const lowest = light('dimming-floor', ({ light, products }) => {
      light.zones[0]!.levels.lowest = 0.04;
      Object.assign(products.dimmer!, { lowestLevel: 0.05, frequency_Hz: null });
    });
    expect(lowest).toMatchObject({ status: 'watch', value: 0.04, limit: 0.05 });
    expect(lowest!.margin).toBeCloseTo(-0.01, 12);
    expect(lowest!.sentence).toMatch(/^The dimmer goes down to about 5 % of full/);
  });
});
