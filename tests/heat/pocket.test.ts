import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PocketDescription, solvePocket } from '../../src/heat/pocket.ts';

const closed: PocketDescription = {
  faces: [
    { name: 'door', area_m2: 0.12, resistance_m2K_per_W: 0.018 / 0.13 },
    { name: 'wall', area_m2: 0.12, resistance_m2K_per_W: null },
  ],
  drivers: [{ name: 'D1', loss_W: 10, case_m2: 0.05 }],
  vents: null,
  room_K: 296.15,
};

function solved(pocket: PocketDescription) {
  const outcome = solvePocket(pocket);
  if (!outcome.ok) throw new Error(outcome.issues[0]!.sentence);
  return outcome.value;
}

describe('a driver pocket', () => {
  it('closed, is P/(U*A) over the room, and its case P/(h*A) over that', () => {
    const balance = solved(closed);
    const rise = 10 / (0.12 / (0.26 + 0.018 / 0.13));
    expect(balance.air_K - 296.15).toBeCloseTo(rise, 6);
    expect(balance.drivers[0]!.case_K - balance.air_K).toBeCloseTo(10 / (8 * 0.05), 9);
  });

  it('vented, still balances, and is cooler than closed', () => {
    const watts = fc.double({ min: 0.5, max: 25, noNaN: true });
    const area = fc.double({ min: 2e-4, max: 5e-3, noNaN: true });
    fc.assert(
      fc.property(watts, area, (loss_W, low_m2) => {
        const drivers = [
          { name: 'D1', loss_W, case_m2: 0.05 },
          { name: 'D2', loss_W: loss_W / 2, case_m2: 0.04 },
        ];
        const vented = solved({ ...closed, drivers, vents: { low_m2, high_m2: low_m2, rise_m: 0.5 } });
        const out = vented.throughFaces_W.reduce((sum, face) => sum + face.heat_W, vented.byAir_W);
        expect(out / (1.5 * loss_W)).toBeCloseTo(1, 6);
        expect(Math.abs(vented.balance)).toBeLessThan(1e-6);
        const shut = solvePocket({ ...closed, drivers });
        if (shut.ok) expect(vented.air_K).toBeLessThan(shut.value.air_K);
        expect(vented.throughFaces_W[1]!.heat_W).toBe(0);
      }),
      { seed: 71, numRuns: 60 },
    );
  });

  it('stands at room temperature with drivers that lose nothing', () => {
    const idle = { ...closed, drivers: [{ name: 'D1', loss_W: 0, case_m2: 0.05 }] };
    expect(solved(idle).air_K).toBeCloseTo(296.15, 6);
  });

  it('is refused where heat has no way out', () => {
    const outcome = solvePocket({ ...closed, faces: [closed.faces[1]!] });
    expect(outcome.ok ? '' : outcome.issues[0]!.code).toBe('pocket-has-no-way-out');
    const broken = { ...closed, drivers: [{ name: 'D1', loss_W: -1, case_m2: 0.05 }] };
    expect(() => solvePocket(broken)).toThrow(RangeError);
  });
});
