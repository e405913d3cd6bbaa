import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SlotLine } from '../../src/answer/sizing.ts';
import { stripCatalogue } from '../../src/job/strip-catalogue.ts';
import { runInSlot, unitsLength_mm, wholeUnits } from '../../src/set-out/pieces.ts';

const upright = (length_mm: number): SlotLine => ({
  ...{ id: 'S01', number: 1, x0_mm: 100, y0_mm: 50, x1_mm: 100, y1_mm: 50 + length_mm },
  ...{ length_mm, width_mm: 20 },
});

const strip = stripCatalogue.find((entry) => entry.unitsPerMetre === 24)!;

describe('whole cut units', () => {
  it('are counted from units per metre, not from a rounded unit length', () => {
    expect(wholeUnits(2000, 24)).toBe(48);
    expect(Math.floor(2000 / 41.7)).toBe(47);
  });

  it('are not lost to rounding where the length is exactly so many', () => {
    for (const unitsPerMetre of [10, 14, 20, 24, 28, 40]) {
      for (let n = 1; n < 400; n++) expect(wholeUnits((n * 1000) / unitsPerMetre, unitsPerMetre)).toBe(n);
    }
  });
});

const lengths = fc.double({ min: 50, max: 20000, noNaN: true });
const anchors = fc.constantFrom('start' as const, 'middle' as const, 'finish' as const);

describe('a run in a slot', () => {
  it('fills the slot: strip and dark ends add up, and one more unit would not fit', () => {
    fc.assert(
      fc.property(lengths, anchors, (length_mm, anchor) => {
        const run = runInSlot(upright(length_mm), strip, anchor);
        if (!run.ok) throw new Error('expected a run');
        const { strip_mm, darkStart_mm, darkFinish_mm, unitCount, pieces } = run.value;
        expect(strip_mm + darkStart_mm + darkFinish_mm).toBeCloseTo(length_mm, 6);
        expect(strip_mm).toBeLessThanOrEqual(length_mm + 1e-6);
        expect(unitsLength_mm(unitCount + 1, 24)).toBeGreaterThan(length_mm);
        expect(pieces.reduce((sum, piece) => sum + piece.unitCount, 0)).toBe(unitCount);
      }),
      { seed: 7 },
    );
  });

  it('has the fewest joints: no piece but the last is shorter than a reel', () => {
    const run = runInSlot(upright(12_300), strip, 'middle');
    if (!run.ok) throw new Error('expected a run');
    expect(run.value.pieces.map((piece) => piece.unitCount)).toEqual([120, 120, 55]);
    expect(run.value.jointLines).toEqual([120, 240]);
  });

  it('mirrors: anchored at the other end of a turned slot, the strip lies in the same place', () => {
    const slot = upright(1234);
    const turned = { ...slot, y0_mm: slot.y1_mm, y1_mm: slot.y0_mm };
    const a = runInSlot(slot, strip, 'start');
    const b = runInSlot(turned, strip, 'finish');
    if (!a.ok || !b.ok) throw new Error('expected runs');
    expect(a.value.y0_mm).toBeCloseTo(b.value.y1_mm, 9);
    expect(a.value.y1_mm).toBeCloseTo(b.value.y0_mm, 9);
  });

  it('is refused by name where the slot is shorter than a unit', () => {
    const run = runInSlot(upright(41), strip, 'middle');
    expect(run.ok ? [] : run.issues).toMatchObject([{ code: 'slot-too-short', place: { slot: 'S01' } }]);
  });

  it('is refused where a unit is longer than a reel', () => {
    const run = runInSlot(upright(4000), { ...strip, unitsPerMetre: 1, reel_mm: 500 }, 'middle');
    expect(run.ok ? [] : run.issues).toMatchObject([{ code: 'unit-longer-than-reel' }]);
  });
});
