import { describe, expect, it } from 'vitest';
import { rowHarmonics } from '../../reference/laws/lamp-row.ts';
import { lampExponent, michelsonContrast } from '../../src/light/lamp-row.ts';
import { rippleOf } from '../../src/light/ripple.ts';
import { type LitSection, lampFrame, slotEdges } from '../../src/light/section.ts';
import { solveSection } from '../../src/light/solved-section.ts';
import { seeded } from './photons.ts';
import { lightOf, opal, plainSection } from './sections.ts';

const black = { back: 0, sides: 0, front: 0 };

describe('ripple in a black cavity', () => {
  it.each([
    [0.02, 60],
    [0.012, 45],
    [0.03, 70],
  ])('is that of the bare row, depth %f m, half angle %f degrees', (depth_m, halfAngle_deg) => {
    const strip = { ...plainSection.strip, lampPitch_m: 1 / 50, halfAngle_deg };
    const light = lightOf({ ...plainSection, depth_m, strip, reflectance: black, slotWidth_m: 0.01 });
    const row = rowHarmonics({
      exponent: lampExponent(halfAngle_deg),
      distance_m: depth_m,
      lampPitch_m: 1 / 50,
    });
    expect(light.slotPlane.ripple.michelson / michelsonContrast(row)).toBeCloseTo(1, 3);
  });

  it('is that of lamps counted one by one off the centre line', () => {
    const strip = { ...plainSection.strip, lampPitch_m: 1 / 30, offset_m: -0.011, halfAngle_deg: 50 };
    const section = {
      ...plainSection,
      depth_m: 0.02,
      slotOffset_m: 0.01,
      slotWidth_m: 0.02,
      strip,
      reflectance: black,
    };
    const m = lampExponent(50);
    const oneByOne = (along_m: number): number => {
      let sum = 0;
      for (let n = -2000; n <= 2000; n++) sum += Math.hypot(0.021, 0.02, n / 30 - along_m) ** -(m + 3);
      return sum;
    };
    const [most, least] = [oneByOne(0), oneByOne(1 / 60)];
    expect(lightOf(section).slotPlane.ripple.michelson).toBeCloseTo((most - least) / (most + least), 4);
  });
});

interface Amplitude {
  readonly value: number;
  readonly error: number;
}

/**
 * Follows photons in space through a thin-fronted cavity from one lamp at z = 0 and notes where along the run they
 * arrive: of evenly spaced lamps the relative amplitude of harmonic n is twice the mean of cos(k_n z).
 */
function countInSpace(
  section: LitSection,
  photonCount: number,
  seed: number,
): { plane: Amplitude[]; back: Amplitude[] } {
  const random = seeded(seed);
  const { width_m: w, depth_m: d, sheet, reflectance } = section;
  const { left_m: s0, right_m: s1 } = slotEdges(section);
  const lamp = lampFrame(section);
  const exponent = lampExponent(section.strip.halfAngle_deg);
  const k = (2 * Math.PI) / section.strip.lampPitch_m;
  const tally = { plane: [] as number[], back: [] as number[] };
  const at = { x: 0, y: 0, z: 0 };
  const to = { x: 0, y: 0, z: 0 };
  const leave = (nx: number, ny: number, power: number): void => {
    const cosine = random() ** (1 / (power + 1));
    const sine = Math.sqrt(1 - cosine * cosine);
    const turn = 2 * Math.PI * random();
    const across = sine * Math.cos(turn);
    to.x = nx * cosine + ny * across;
    to.y = ny * cosine - nx * across;
    to.z = sine * Math.sin(turn);
  };
  const flight = (from: number, way: number, size: number): number =>
    way > 0 ? (size - from) / way : way < 0 ? -from / way : Number.POSITIVE_INFINITY;
  for (let i = 0; i < photonCount; i++) {
    Object.assign(at, { x: lamp.at.x, y: lamp.at.y, z: 0 });
    leave(lamp.facing.x, lamp.facing.y, exponent);
    for (;;) {
      const toX = flight(at.x, to.x, w);
      const toY = flight(at.y, to.y, d);
      const t = Math.min(toX, toY);
      at.x += t * to.x;
      at.y += t * to.y;
      at.z += t * to.z;
      let kept = reflectance.sides;
      let normal: [number, number] = [to.x > 0 ? -1 : 1, 0];
      if (toY <= toX) {
        const rear = to.y < 0;
        at.y = rear ? 0 : d;
        normal = [0, rear ? 1 : -1];
        kept = rear ? reflectance.back : reflectance.front;
        const inSlot = at.x > s0 && at.x < s1;
        if (inSlot) (rear ? tally.back : tally.plane).push(at.z);
        if (inSlot && !rear) kept = sheet ? sheet.reflectance : 0;
      } else at.x = to.x > 0 ? w : 0;
      if (random() >= kept) break;
      leave(normal[0], normal[1], 1);
    }
  }
  const amplitudes = (places: readonly number[]): Amplitude[] =>
    [1, 2].map((n) => {
      let [sum, squares] = [0, 0];
      for (const z of places) {
        const c = 2 * Math.cos(n * k * z);
        sum += c;
        squares += c * c;
      }
      const value = sum / places.length;
      return { value, error: Math.sqrt((squares / places.length - value * value) / places.length) };
    });
  return { plane: amplitudes(tally.plane), back: amplitudes(tally.back) };
}

const narrow = { ...plainSection, slotWidth_m: 0.004, reflectance: { back: 0.9, sides: 0.85, front: 0.8 } };

const sections: Record<string, LitSection> = {
  'strip facing the slot': { ...narrow, depth_m: 0.02, strip: { ...narrow.strip, lampPitch_m: 0.03 } },
  'indirect strip': {
    ...narrow,
    depth_m: 0.02,
    strip: { ...narrow.strip, mount: 'front', offset_m: 0.012, lampPitch_m: 0.08 },
  },
  'strip on the side, narrow beam': {
    ...narrow,
    ...{ width_m: 0.05, depth_m: 0.03 },
    strip: { ...narrow.strip, mount: 'side', offset_m: 0, lampPitch_m: 0.06, halfAngle_deg: 45 },
  },
  'off-centre strip behind a sheet': {
    ...narrow,
    ...{ depth_m: 0.025, slotOffset_m: 0.008, sheet: opal },
    strip: { ...narrow.strip, offset_m: -0.01, lampPitch_m: 0.05, halfAngle_deg: 55 },
  },
};

describe('ripple against photons counted in space', () => {
  it.each(Object.entries(sections))('%s', (_, section) => {
    const computed = rippleOf(solveSection(section));
    const counted = countInSpace(section, 700_000, 90_210);
    for (const n of [0, 1]) {
      const plane = counted.plane[n]!;
      const back = counted.back[n]!;
      expect(Math.abs((computed.slotCentre.amplitudes[n] ?? 0) - plane.value)).toBeLessThan(3 * plane.error);
      expect(Math.abs((computed.seenBackCentre.amplitudes[n] ?? 0) - back.value)).toBeLessThan(
        3 * back.error,
      );
    }
  });

  it('is several percent for an indirect strip with no direct light at all', () => {
    const light = lightOf(sections['indirect strip']!);
    expect(light.slotPlane.direct_lx).toBe(0);
    expect(light.seenRipple.michelson).toBeGreaterThan(0.03);
  });

  it('does not depend on how finely the section is cut', () => {
    for (const section of Object.values(sections)) {
      const coarse = rippleOf(solveSection(section));
      const fine = rippleOf(solveSection(section, 3));
      expect(Math.abs(coarse.slotCentre.michelson / fine.slotCentre.michelson - 1)).toBeLessThan(0.01);
      expect(Math.abs(coarse.seenBackCentre.michelson / fine.seenBackCentre.michelson - 1)).toBeLessThan(
        0.01,
      );
    }
  });
});
