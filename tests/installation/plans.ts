import type { InstallationToPlan } from '../../src/installation/installation-to-plan.ts';
import type { CableProduct, Installation } from '../../src/installation/plan.ts';
import { planInstallation } from '../../src/installation/plan-installation.ts';
import type { DriverPlace } from '../../src/job/driver-place.ts';
import { newJob } from '../../src/job/new-job.ts';
import { fedRun } from '../set-out/runs.ts';

/** A cable of so much copper in round numbers: 20 ohm/km for 1 mm2, PVC. */
export const copper = (area_mm2: number): CableProduct => ({
  ...{ id: `${area_mm2}`, name: `2 × ${area_mm2} mm²`, area_mm2, conductor_ohm_per_km: 20 / area_mm2 },
  ...{ limit_degC: 70, outer_mm: 8, coreCounts: [2], price_cents_per_m: null, pricesByCores: [] },
});

/** A place of 800 x 100 mm below the panel's lower left corner, from 100 mm across, 200 mm under the edge. */
export const placeBelow = (change: Partial<DriverPlace> = {}): DriverPlace => ({
  ...newJob().drivers.places[0]!,
  ...{ name: 'Plinth', kind: 'box', cable_mm: null, terminalsFace: 'right' },
  ...{ x_mm: 100, y_mm: -200, width_mm: 800, height_mm: 100, depth_mm: 60 },
  ...change,
});

/** The one driver model of the wall below, otherwise in something. */
export const modelled = (
  change: Partial<InstallationToPlan['models'][number]> = {},
): InstallationToPlan['models'] => [
  {
    ...{ length_mm: 200, width_mm: 40, height_mm: 30, clearance_mm: 10 },
    ...{ current_A: 5, terminalConductors: 1, ...change },
  },
];

/**
 * A panel of 2,000 x 2,000 mm with upright runs at 600 and 900 mm, 100 to 1,100 mm high, 1 A each, on one output of 5 A,
 * that limits at 7.5 A; cords of 1.5 mm2, air of 30 degC. The foot way is at 40 mm, tails are 300 mm, a tenth is allowed.
 */
export function wallToPlan(change: Partial<InstallationToPlan> = {}): InstallationToPlan {
  const runs = [fedRun('S01', [600, 100, 600, 1100]), fedRun('S02', [900, 100, 900, 1100])];
  const layout = change.cables?.layout ?? 'radial';
  const of = change.runs ?? runs;
  return {
    ...{ runs: of, panel: { width_mm: 2000, height_mm: 2000 }, openings: [], turns: [] },
    outputs: [
      {
        id: 'D1.1',
        driver: 'D1',
        model: 0,
        place: 0,
        runs: of.map(({ id }) => id),
        layout,
        way: 'foot' as const,
      },
    ],
    cables: cabling(),
    places: [placeBelow()],
    ...{ cable: copper(1.5), trunk: copper(1.5), linkSizes: [copper(1.5), copper(2.5), copper(4)] },
    models: modelled(),
    dimmer: null,
    run_A: of.map(() => 1),
    ...{ place_degC: (change.places ?? [0]).map(() => 30), slot_degC: 30, room_degC: 30 },
    resistances: { connector_ohm: 0.005, dimmer_ohm: 0.02 },
    fuses: 'blade',
    ...change,
  };
}

export const cabling = (
  change: Partial<InstallationToPlan['cables']> = {},
): InstallationToPlan['cables'] => ({
  ...newJob().cables,
  ...{ layout: 'radial', way: 'foot', wayInset_mm: 40, tail_mm: 300, allowance: 0.1 },
  ...{ grouped: 1, cable_degC: 30 },
  ...change,
});

/** The wiring of a wall that has to have one. */
export function plannedWall(change: Partial<InstallationToPlan> = {}): Installation {
  const planned = planInstallation(wallToPlan(change));
  if (!planned.ok) throw new Error(planned.issues[0]?.sentence);
  return planned.value;
}
