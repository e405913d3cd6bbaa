import { describe, expect, it } from 'vitest';
import { type Job, newJob, type Sizing, sizeJob } from '../../src/index.ts';
import { newZone } from '../../src/job/zone.ts';

function size(job: Job): Sizing {
  const result = sizeJob(job);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value;
}

type Zone = Job['dimming']['zones'][number];

/** Four slots, the first two in a zone; the others by the job. */
function wall(zone: Partial<Zone>, dimming: Partial<Job['dimming']>): Job {
  const job = newJob();
  const zones = [{ ...newZone({ id: 'Z1', name: 'Shelf', slots: [1, 2] }), ...zone }];
  return {
    ...job,
    panel: { width_mm: 1000, height_mm: 900 },
    slots: { ...job.slots, spacing: { by: 'count', count: 4 } } as Job['slots'],
    drivers: { ...job.drivers, entry: '24V-20W' },
    dimming: { ...job.dimming, sizeFor: 'levels', zones, ...dimming },
  };
}

/** Everything but what names the levels. */
const figures = ({ circuit, drivers, heat, cables }: Sizing) => ({ circuit, drivers, heat, cables });

describe.each([
  ['lowered steadily', null],
  ['in pulses', 4000],
])('zones with levels of their own, %s', (_, pwm_Hz) => {
  const one = size(wall({ levels: [0.3] }, { levels: [0.3], pwm_Hz }));

  it('that are those of the job change nothing', () => {
    expect(figures(one)).toEqual(figures(size(wall({}, { levels: [0.3], pwm_Hz }))));
  });

  it('count where they are, whichever of zone and job has which', () => {
    const [zoned, turned] = [
      size(wall({ levels: [0.5] }, { levels: [0.3], pwm_Hz })),
      size(wall({ slots: [3, 4], levels: [0.3] }, { levels: [0.5], pwm_Hz })),
    ];
    expect(figures(zoned)).toEqual(figures(turned));
    expect(zoned.circuit.average_W).toBeGreaterThan(1.2 * one.circuit.average_W);
    expect(zoned.heat.strip_W_per_m).toBeGreaterThan(1.5 * one.heat.strip_W_per_m);
  });

  it('keep the watts, and the heat goes by the zone that draws most', () => {
    const { circuit, heat, drivers } = size(wall({ levels: [0.2] }, { levels: [0.3], pwm_Hz }));
    expect(heat.strip_W_per_m).toBeCloseTo(one.heat.strip_W_per_m, 3);
    expect(drivers.drivers.reduce((sum, { average_W }) => sum + average_W, 0)).toBeCloseTo(
      circuit.average_W,
      9,
    );
    // Half of the wall at 20 % and half at 30 %: five sixths of all at 30 %, but for a little copper.
    expect(circuit.average_W / one.circuit.average_W).toBeCloseTo(5 / 6, 2);
  });
});

it('light each zone by its own levels, in proportion to full', () => {
  const own = { levels: [0.5], lowest: 0.02, wanted_cd_per_m2: 400 };
  const { light, findings } = size(wall(own, { levels: [0.15], sizeFor: 'all on', restName: 'Back' }));
  const full = light.full_cd_per_m2;
  expect(light.zones.map(({ name, slots, levels }) => [name, slots, levels])).toEqual([
    ['Shelf', ['S01', 'S02'], { full: 1, working: [0.5], lowest: 0.02 }],
    ['Back', ['S03', 'S04'], { full: 1, working: [0.15], lowest: 0.15 }],
  ]);
  expect(light.zones.map((zone) => zone.luminance_cd_per_m2 / full)).toEqual(
    [0.5, 0.15].map((level) => expect.closeTo(level, 9)),
  );
  expect(light.zones.map((zone) => zone.lowest_cd_per_m2! / full)).toEqual(
    [0.02, 0.15].map((level) => expect.closeTo(level, 9)),
  );
  expect(light.zones.map((zone) => zone.wanted_cd_per_m2)).toEqual([400, 200]);
  // Rounded up to a tenth of a percent.
  for (const { neededLevels, wanted_cd_per_m2 } of light.zones) {
    expect(neededLevels[0]! - wanted_cd_per_m2 / full).toBeGreaterThanOrEqual(-1e-9);
    expect(neededLevels[0]! - wanted_cd_per_m2 / full).toBeLessThan(0.001);
  }
  expect(
    findings
      .map(({ id }) => id)
      .filter((id) => id.startsWith('brightness'))
      .toSorted(),
  ).toEqual(['brightness', 'brightness-1']);
});
