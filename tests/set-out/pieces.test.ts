import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SlotLine } from '../../src/answer/set-out.ts';
import { stripCatalogue } from '../../src/job/strip-catalogue.ts';
import { runInSlot, unitsLength_mm, wholeUnits } from '../../src/set-out/pieces.ts';

const upright = (length_mm: number): SlotLine => ({
  ...{ id: 'S01', number: 1, panel: null, x0_mm: 100, y0_mm: 50, x1_mm: 100, y1_mm: 50 + length_mm },
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

  it('by hand: 1,000 mm of 24 units a metre, 23 mm to spare, and where it lies by its anchor', () => {
    // 1,023 mm hold 24.55 units: 24, exactly 1,000 mm. The slot stands on 50.
    const lie = (['start', 'middle', 'finish'] as const).map((anchor) => {
      const run = runInSlot(upright(1023), strip, anchor);
      if (!run.ok) throw new Error('expected a run');
      const { unitCount, strip_mm, darkStart_mm, darkFinish_mm, x0_mm, y0_mm, x1_mm, y1_mm } = run.value;
      return [unitCount, strip_mm, darkStart_mm, darkFinish_mm, x0_mm, y0_mm, x1_mm, y1_mm];
    });
    expect(lie).toEqual([
      [24, 1000, 0, 23, 100, 50, 100, 1050],
      [24, 1000, 11.5, 11.5, 100, 61.5, 100, 1061.5],
      [24, 1000, 23, 0, 100, 73, 100, 1073],
    ]);
  });

  it('lies along a slanting slot', () => {
    // 3 : 4 : 5 of 1,020 mm: 20 mm dark at the start are 12 across and 16 up.
    const slanted = { ...upright(1020), x1_mm: 100 + 612, y1_mm: 50 + 816 };
    const run = runInSlot(slanted, strip, 'finish');
    if (!run.ok) throw new Error('expected a run');
    const { x0_mm, y0_mm, x1_mm, y1_mm } = run.value;
    for (const [mm, byHand] of [
      [x0_mm, 112],
      [y0_mm, 66],
      [x1_mm, 712],
      [y1_mm, 866],
    ] as const) {
      expect(mm).toBeCloseTo(byHand, 9);
    }
  });

  it('names its pieces A to Z, then AA, AB, and says how long each is', () => {
    // Reels of 500 mm hold 12 units of 41.667 mm; 13,625 mm hold 327: 27 full reels and 3 units, 125 mm.
    const run = runInSlot(upright(13_640), { ...strip, reel_mm: 500 }, 'start');
    if (!run.ok) throw new Error('expected a run');
    const { pieces } = run.value;
    expect(pieces.map((piece) => piece.id).filter((_, i) => [0, 1, 25, 26, 27].includes(i))).toEqual([
      'S01-A',
      'S01-B',
      'S01-Z',
      'S01-AA',
      'S01-AB',
    ]);
    expect(pieces.map((piece) => piece.length_mm)).toEqual([...Array<number>(27).fill(500), 125]);
    expect(pieces.every((piece) => piece.run === 'S01')).toBe(true);
  });

  it('of exactly two reels has two pieces and one joint, of one reel none', () => {
    const joints = (length_mm: number) => {
      const run = runInSlot(upright(length_mm), strip, 'middle');
      return run.ok ? [run.value.pieces.length, ...run.value.jointLines] : [];
    };
    expect(joints(10_000)).toEqual([2, 120]);
    expect(joints(5000)).toEqual([1]);
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
    expect(run.ok ? [] : run.issues).toMatchObject([
      {
        code: 'slot-too-short',
        place: { slot: 'S01' },
        quantities: { available_mm: 41, unit_mm: expect.closeTo(41.6667, 4) },
        sentence: expect.stringContaining('is 41 mm long and one cut unit of this strip is 41.7 mm'),
      },
    ]);
    // A slot of exactly one unit holds it.
    expect(runInSlot(upright(1000 / 24), strip, 'middle').ok).toBe(true);
  });

  it('is refused where a unit is longer than a reel', () => {
    const run = runInSlot(upright(4000), { ...strip, unitsPerMetre: 1, reel_mm: 500 }, 'middle');
    expect(run.ok ? [] : run.issues).toMatchObject([
      {
        ...{ code: 'unit-longer-than-reel', place: { field: 'strip.data.reel_mm' } },
        quantities: { unit_mm: 1000, reel_mm: 500 },
      },
    ]);
    expect(runInSlot(upright(4000), { ...strip, unitsPerMetre: 1, reel_mm: 1000 }, 'middle').ok).toBe(true);
  });
});
