import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { directExchange_m } from '../../src/heat/cavity-faces.ts';
import { cutLines } from '../../src/heat/mesh.ts';
import { temperaturesOf } from '../../src/heat/section-answers.ts';
import { balanceLevel, levelOf } from '../../src/heat/section-balance.ts';
import type { SectionDescription, SectionLoads } from '../../src/heat/section-description.ts';
import { movedBetween } from '../../src/heat/section-extrapolation.ts';
import {
  type FieldRequest,
  type SectionField,
  solveSectionField,
  stratificationAllowance_K,
} from '../../src/heat/section-field.ts';
import { geometryOf } from '../../src/heat/section-geometry.ts';
import { firstLines } from '../../src/heat/section-mesh.ts';
import { facetLength } from '../../src/numeric/view-factors.ts';
import { anySection, carrier, panel, sheet } from './sections.ts';

function field(section: SectionDescription, loads: SectionLoads, request?: FieldRequest): SectionField {
  const outcome = solveSectionField(section, loads, request);
  if (!outcome.ok) throw new Error(outcome.issues[0]!.sentence);
  return outcome.value;
}

function quick(section: SectionDescription, loads: SectionLoads): SectionField {
  const outcome = solveSectionField(section, loads, { lampRise_K: 0, confirm: false });
  if (!outcome.ok) throw new Error(outcome.issues[0]!.sentence);
  return outcome.value;
}

const watts = fc.double({ min: 0.5, max: 15, noNaN: true });
const seven: SectionLoads = { strip_W_per_m: 7 };

describe('conservation', () => {
  it('holds: watts in are watts out, to a thousandth, for any section', () => {
    fc.assert(
      fc.property(anySection, watts, (section, w) => {
        const loads = { strip_W_per_m: w, facesAbsorbed_W_per_m: { backing: 0.1 * w, front: 0.2 * w } };
        const solved = quick(section, loads);
        const out = Object.values(solved.watts_W_per_m).reduce((sum, x) => sum + x, 0);
        expect(Math.abs(out / (1.3 * w) - 1)).toBeLessThan(1e-3);
        expect(solved.balance).toBeCloseTo(1 - out / (1.3 * w), 9);
      }),
      { seed: 51, numRuns: 25 },
    );
  });

  it('holds at any watts: to a thousandth from 1 mW/m up, and to a microwatt a metre below', () => {
    const sections = [panel, { ...panel, sheet, strip: { ...panel.strip, carrier } }];
    for (const section of sections)
      for (const strip_W_per_m of [0, 5e-13, 1e-9, 1e-6, 1e-4, 1e-3, 0.01, 0.1, 0.4, 1, 30, 60]) {
        const { balance, watts_W_per_m, temperatures } = quick(section, { strip_W_per_m });
        const out = Object.values(watts_W_per_m).reduce((sum, x) => sum + x, 0);
        expect(Math.abs(out - strip_W_per_m), `${strip_W_per_m} W/m`).toBeLessThan(
          1e-3 * Math.max(strip_W_per_m, 1e-3),
        );
        expect(Math.abs(balance)).toBeLessThan(1e-3);
        expect(temperatures.strip.mean_K).toBeGreaterThanOrEqual(section.room_K - 1e-9);
      }
  });

  it('holds in the cavity: direct exchange areas are the same both ways and add up to the face', () => {
    fc.assert(
      fc.property(anySection, (section) => {
        const geometry = geometryOf(section);
        const level = levelOf(section, seven, geometry, firstLines(geometry), 1);
        const { faces } = level.radiation;
        const exchange = directExchange_m(faces, geometry);
        for (let i = 0; i < faces.length; i++) {
          let sum = 0;
          for (let j = 0; j < faces.length; j++) {
            sum += exchange[i * faces.length + j]!;
            expect(exchange[i * faces.length + j]).toBe(exchange[j * faces.length + i]);
          }
          expect(Math.abs(sum / facetLength(faces[i]!) - 1)).toBeLessThan(1e-3);
        }
      }),
      { seed: 52, numRuns: 25 },
    );
  });
});

describe('two independent ways', () => {
  it('half a pitch and the whole pitch give the same answer', () => {
    // Moved by 2 µm, the least that is drawn, the strip is no longer even about the slot and the whole is solved.
    for (const battenWidth_m of [0, 0.02]) {
      const section = { ...panel, battenWidth_m };
      const whole = { ...section, strip: { ...section.strip, offset_m: 2e-6 } };
      const [a, b] = [field(section, seven), field(whole, seven)];
      expect(a.picture.half).toBe(true);
      expect(b.picture.half).toBe(false);
      expect(b.temperatures.strip.mean_K).toBeCloseTo(a.temperatures.strip.mean_K, 1);
      expect(b.temperatures.roomFace.temperature_K).toBeCloseTo(a.temperatures.roomFace.temperature_K, 1);
      expect(b.watts_W_per_m.front).toBeCloseTo(a.watts_W_per_m.front, 1);
    }
  });

  it('two meshes and the confirmed answer agree within 0.15 K', () => {
    fc.assert(
      fc.property(anySection, (section) => {
        const [a, b] = [quick(section, seven).temperatures, field(section, seven).temperatures];
        expect(Math.abs(a.strip.peak.temperature_K - b.strip.peak.temperature_K)).toBeLessThan(0.15);
        expect(Math.abs(a.hottestTimber.temperature_K - b.hottestTimber.temperature_K)).toBeLessThan(0.15);
        expect(Math.abs(a.roomFace.temperature_K - b.roomFace.temperature_K)).toBeLessThan(0.15);
        expect(Math.abs(a.cable.temperature_K - b.cable.temperature_K)).toBeLessThan(0.15);
      }),
      { seed: 53, numRuns: 8 },
    );
  });

  it('a strip with no contact to its timber is a body that only air and radiation cool', () => {
    const loose = { ...panel, strip: { ...panel.strip, contact_m2K_per_W: 1e4 } };
    const solved = field(loose, { strip_W_per_m: 0.5 });
    // 50 W/m2 leave by the film of the strip's face alone, 6 to 12 W/(m2K) for a face this narrow and more.
    const over_K = solved.temperatures.strip.mean_K - solved.temperatures.cavityAir_K;
    expect(50 / over_K).toBeGreaterThan(5);
    expect(50 / over_K).toBeLessThan(25);
  });
});

describe('refinement', () => {
  it('goes on until the answer moves by less than 0.1 K, and says so', () => {
    const { meshHistory, temperatures } = field(panel, seven);
    expect(meshHistory.length).toBeGreaterThanOrEqual(3);
    expect(meshHistory[0]!.answerPeak_K).toBeNull();
    expect(meshHistory[1]!.moved_K).toBeNull();
    expect(meshHistory.at(-1)!.moved_K).toBeLessThan(0.1);
    expect(meshHistory.at(-1)!.answerPeak_K).toBe(temperatures.strip.peak.temperature_K);
    for (let k = 1; k < meshHistory.length; k++)
      expect(meshHistory[k]!.nodeCount).toBeGreaterThan(2 * meshHistory[k - 1]!.nodeCount);
  });

  const mounted = (strip: Partial<SectionDescription['strip']>): SectionDescription => ({
    ...panel,
    strip: { ...panel.strip, ...strip },
  });
  it.each([
    ['a panel', panel],
    ['with a sheet', { ...panel, sheet }],
    ['with a carrier', mounted({ carrier })],
    ['with the strip on the front', mounted({ mount: 'front', offset_m: 0.02 })],
    ['with the strip on a side', mounted({ mount: 'side', offset_m: 0.015 })],
    // Here the strip is hottest between two lines, and so is the jamb it nearly touches.
    ['with the strip half a millimetre from the slot', mounted({ mount: 'front', offset_m: 0.0105 })],
    // Here the nearest place for a cable on the backing is askew of the carrier, 5 mm off the one way, 8.7 the other.
    ['with a carrier on a side', mounted({ mount: 'side', offset_m: 0.015, carrier })],
  ])('is right to: a mesh twice as fine gives the same within 0.05 K, %s', (_, section) => {
    const answer = field(section, seven);
    const geometry = geometryOf(section);
    const { xs, ys } = answer.picture;
    const lines = { xs: cutLines(xs, 2), ys: cutLines(ys, 2) };
    const level = levelOf(section, seven, geometry, lines, 6);
    const start = new Float64Array(level.network.nodeCount).fill(310);
    const finer = temperaturesOf(balanceLevel(level, seven, start)!, 0);
    expect(movedBetween(answer.temperatures, finer)).toBeLessThan(0.05);
  });

  it('draws what it solved: the hottest point of the picture is the hottest timber', () => {
    const { picture, temperatures } = field({ ...panel, sheet }, seven);
    const drawn = picture.temperature_K.filter((t) => !Number.isNaN(t));
    expect(Math.abs(Math.max(...drawn) - temperatures.hottestTimber.temperature_K)).toBeLessThan(0.3);
    expect(picture.temperature_K.length).toBe(picture.xs.length * picture.ys.length);
  });
});

describe('symmetry', () => {
  it('a strip as far to the left is as warm as one to the right', () => {
    const beside = (offset_m: number) => ({ ...panel, strip: { ...panel.strip, offset_m } });
    const [left, right] = [quick(beside(-0.02), seven), quick(beside(0.02), seven)];
    expect(left.temperatures.strip.peak.temperature_K).toBeCloseTo(
      right.temperatures.strip.peak.temperature_K,
      4,
    );
    expect(left.temperatures.strip.peak.x_m).toBeCloseTo(-right.temperatures.strip.peak.x_m, 9);
    expect(left.watts_W_per_m.front).toBeCloseTo(right.watts_W_per_m.front, 4);
  });

  it('with no heat everything stands at room temperature', () => {
    const solved = quick(panel, { strip_W_per_m: 0 });
    expect(solved.temperatures.strip.peak.temperature_K).toBeCloseTo(panel.room_K, 4);
    expect(solved.temperatures.roomFace.temperature_K).toBeCloseTo(panel.room_K, 4);
  });
});

describe('monotony', () => {
  it('more watts are never cooler', () => {
    fc.assert(
      fc.property(anySection, watts, (section, w) => {
        const [less, more] = [
          quick(section, { strip_W_per_m: w }),
          quick(section, { strip_W_per_m: 1.1 * w }),
        ];
        for (const read of [
          (q: SectionField) => q.temperatures.strip.peak.temperature_K,
          (q: SectionField) => q.temperatures.hottestTimber.temperature_K,
          (q: SectionField) => q.temperatures.roomFace.temperature_K,
        ])
          expect(read(more)).toBeGreaterThan(read(less) - 0.01);
      }),
      { seed: 54, numRuns: 15 },
    );
  });

  it('deeper battens never make the back hotter by more than still air explains', () => {
    // Up to the depth where convection sets in, more air is more insulation: about 2 % of the rise per 5 mm.
    fc.assert(
      fc.property(anySection, watts, (section, w) => {
        const deeper = { ...section, cavityDepth_m: section.cavityDepth_m + 0.005 };
        const back = (s: SectionDescription) =>
          quick(s, { strip_W_per_m: w }).temperatures.backOfBacking.temperature_K;
        const rise = back(section) - Math.min(section.room_K, 293);
        expect(back(deeper) - back(section)).toBeLessThan(0.04 * Math.max(rise, 1));
      }),
      { seed: 55, numRuns: 15 },
    );
  });

  it('a carrier, a conducting wall and moving air cool the strip; a closed slot warms it', () => {
    const peak = (s: SectionDescription) => quick(s, seven).temperatures.strip.peak.temperature_K;
    const plain = peak(panel);
    expect(peak({ ...panel, strip: { ...panel.strip, carrier } })).toBeLessThan(plain - 5);
    expect(peak({ ...panel, behind: { kind: 'room', resistance_m2K_per_W: 0.3, air_K: 296 } })).toBeLessThan(
      plain,
    );
    expect(peak({ ...panel, exchange: 'buoyant' })).toBeLessThan(plain);
    expect(peak({ ...panel, sheet })).toBeGreaterThan(plain);
  });

  it('air that is exchanged is never colder than the room it comes from', () => {
    fc.assert(
      fc.property(anySection, watts, (section, w) => {
        const open = { ...section, sheet: null, exchange: 'buoyant' as const, behind: panel.behind };
        const solved = field(open, { strip_W_per_m: w });
        const coldest = Math.min(...solved.picture.temperature_K.filter((t) => !Number.isNaN(t)));
        expect(coldest).toBeGreaterThanOrEqual(section.room_K - 1e-3);
        expect(solved.watts_W_per_m.airExchange).toBeGreaterThanOrEqual(0);
      }),
      { seed: 56, numRuns: 6 },
    );
  });
});

describe('where heat is put in and where it goes', () => {
  it('the lamp adds its own rise to the peak of the strip and to nothing else', () => {
    const [plain, lamp] = [field(panel, seven), field(panel, seven, { lampRise_K: 8 })];
    expect(lamp.temperatures.solderPoint_K - lamp.temperatures.strip.peak.temperature_K).toBeCloseTo(8, 9);
    expect(lamp.temperatures.hottestTimber).toEqual(plain.temperatures.hottestTimber);
  });

  it('light on the sheet leaves mostly by the sheet, light on the sides mostly does not', () => {
    const section = { ...panel, sheet };
    const by = (face: 'sheet' | 'sides') =>
      quick(section, { strip_W_per_m: 0, facesAbsorbed_W_per_m: { [face]: 2 } }).watts_W_per_m;
    expect(by('sheet').sheet).toBeGreaterThan(2 * by('sides').sheet);
    expect(() => quick(panel, { strip_W_per_m: 1, facesAbsorbed_W_per_m: { sheet: 1 } })).toThrow(RangeError);
  });

  it('insulation behind takes nothing; a wall does', () => {
    expect(quick(panel, seven).watts_W_per_m.behind).toBe(0);
    const walled: SectionDescription = {
      ...panel,
      behind: { kind: 'room', resistance_m2K_per_W: 0.3, air_K: 296 },
    };
    expect(quick(walled, seven).watts_W_per_m.behind).toBeGreaterThan(1);
  });

  it('a channel open over its whole width, and one closed by a sheet over its whole width, have an answer', () => {
    const channel: SectionDescription = { ...panel, pitch_m: 0.05, slotWidth_m: 0.03, battenWidth_m: 0.02 };
    const [open, closed] = [quick(channel, seven), quick({ ...channel, sheet }, seven)];
    expect(open.temperatures.frontFaceMean_K).toBe(channel.room_K);
    expect(open.watts_W_per_m.openSlotRadiation).toBeGreaterThan(1);
    expect(closed.watts_W_per_m.sheet).toBeGreaterThan(1);
    expect(closed.temperatures.strip.peak.temperature_K).toBeGreaterThan(0);
  });

  it('far too many watts are an answer too, not a crash', () => {
    expect(quick(panel, { strip_W_per_m: 100 }).temperatures.strip.peak.temperature_K).toBeGreaterThan(500);
  });

  it('every mounting is found on its own surface', () => {
    const onFront = quick({ ...panel, strip: { ...panel.strip, mount: 'front', offset_m: 0.03 } }, seven);
    expect(onFront.temperatures.strip.peak.y_m).toBeCloseTo(0.018, 9);
    const onSide = quick({ ...panel, strip: { ...panel.strip, mount: 'side', offset_m: 0.015 } }, seven);
    expect(onSide.temperatures.strip.peak.x_m).toBeCloseTo(0.065, 9);
    const carried = quick({ ...panel, strip: { ...panel.strip, carrier } }, seven);
    expect(carried.temperatures.strip.peak.y_m).toBeCloseTo(0.046, 9);
  });

  it('the upper end is only allowed for where air circulates in a closed cavity', () => {
    expect(stratificationAllowance_K({ backing_K: 330, front_K: 310, nusselt: 1 })).toBe(0);
    expect(stratificationAllowance_K({ backing_K: 330, front_K: 310, nusselt: 1e9 })).toBeCloseTo(10, 6);
    expect(quick({ ...panel, exchange: 'buoyant' }, seven).stratification_K).toBe(0);
    expect(quick({ ...panel, cavityDepth_m: 0.04 }, seven).stratification_K).toBeGreaterThan(0);
  });
});

describe('refusals', () => {
  const codes = (section: SectionDescription): string[] => {
    const outcome = solveSectionField(section, seven);
    return outcome.ok ? [] : outcome.issues.map((issue) => issue.code);
  };
  const strip = (change: Partial<SectionDescription['strip']>): SectionDescription => ({
    ...panel,
    strip: { ...panel.strip, ...change },
  });

  it.each<[string, SectionDescription]>([
    ['slot-wider-than-pitch', { ...panel, slotWidth_m: 0.15 }],
    ['batten-meets-slot', { ...panel, battenWidth_m: 0.145 }],
    ['sheet-thicker-than-front', { ...panel, sheet: { ...sheet, thickness_m: 0.02 } }],
    ['strip-wider-than-cavity', strip({ width_m: 0.14 })],
    ['strip-over-slot', strip({ mount: 'front', offset_m: 0.008 })],
    ['carrier-narrower-than-strip', strip({ carrier: { ...carrier, width_m: 0.008 } })],
    ['carrier-fills-cavity', strip({ carrier: { ...carrier, thickness_m: 0.03 } })],
  ])('%s', (code, section) => {
    expect(codes(section)).toEqual([code]);
  });

  it('side-needs-batten', () => {
    expect(codes({ ...strip({ mount: 'side', offset_m: 0.015 }), battenWidth_m: 0 })).toEqual([
      'side-needs-batten',
    ]);
  });

  // 60 mm of 0.13 W/mK and the room film 0.13 let 1.69 W/m2K through: at a pitch of 50 mm 40 W/m are 473 K over the room,
  // 200 W/m 2,370 K, past the 1,000 K to which air has laws here.
  it.each([
    [40, true],
    [200, false],
  ])(
    'of %i W/m behind thick boards is answered: %s, and refused with what to change otherwise',
    (watts, isAnswered) => {
      const thick = { ...panel.front, thickness_m: 0.06 };
      const oven = { ...panel, pitch_m: 0.05, front: thick, sheet, slotWidth_m: 0.004 };
      const outcome = solveSectionField(oven, { strip_W_per_m: watts });
      expect(outcome.ok).toBe(isAnswered);
      if (!outcome.ok)
        expect(outcome.issues).toMatchObject([
          { code: 'section-does-not-settle', quantities: { heat_W_per_m: 200 } },
        ]);
    },
  );

  it('throws for what no section can have', () => {
    expect(() => solveSectionField({ ...panel, cavityDepth_m: 0 }, seven)).toThrow(RangeError);
    expect(() => solveSectionField(panel, { strip_W_per_m: -1 })).toThrow(RangeError);
    expect(() => solveSectionField(strip({ emissivity: 0 }), seven)).toThrow(RangeError);
  });
});
