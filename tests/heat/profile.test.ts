import { describe, expect, it } from 'vitest';
import { airAt } from '../../src/heat/air.ts';
import { elSherbiny } from '../../src/heat/correlations.ts';
import { innerRayleigh, stillBelow_Ra } from '../../src/heat/inner-air.ts';
import type { Profile, SectionDescription, SectionLoads } from '../../src/heat/section-description.ts';
import { type SectionField, solveSectionField } from '../../src/heat/section-field.ts';
import { sectionIssues } from '../../src/heat/section-rules.ts';
import { panel, sheet } from './sections.ts';

const profile: Profile = {
  ...{ base_m: 0.0015, wall_m: 0.001, inside_m: 0.012, wallHeight_m: 0.008 },
  ...{ conductivity_W_per_mK: 200, insideEmissivity: 0.8, outsideEmissivity: 0.8 },
  cover: { thickness_m: 0.001, conductivity_W_per_mK: 0.2, emissivity: 0.9 },
  contact_m2K_per_W: 2e-3,
};
const open: Profile = { ...profile, cover: null };
const strip = { ...panel.strip, width_m: 0.008 };

const backed: SectionDescription = { ...panel, strip: { ...strip, profile } };
const recessed: SectionDescription = {
  ...panel,
  slotWidth_m: 0.014,
  strip: { ...strip, mount: 'recessed', profile },
};
const beside: SectionDescription = { ...panel, strip: { ...strip, mount: 'side', offset_m: 0.015, profile } };
const with_ = (section: SectionDescription, other: Profile): SectionDescription => ({
  ...section,
  strip: { ...section.strip, profile: other },
});
const thinFront = (section: SectionDescription, thickness_m: number): SectionDescription => ({
  ...section,
  front: { ...section.front, thickness_m },
});

const lit: SectionLoads = { strip_W_per_m: 6, facesAbsorbed_W_per_m: { cover: 0.3, profile: 0.5 } };
const unlit: SectionLoads = { strip_W_per_m: 6, facesAbsorbed_W_per_m: { profile: 0.5 } };

function fieldOf(section: SectionDescription, loads: SectionLoads = lit): SectionField {
  const outcome = solveSectionField(section, loads);
  if (!outcome.ok) throw new Error(outcome.issues.map(({ sentence }) => sentence).join(' '));
  return outcome.value;
}

const sections: Record<string, readonly [SectionDescription, SectionLoads]> = {
  'on the backing': [backed, lit],
  'on the backing, off the middle': [{ ...backed, strip: { ...backed.strip, offset_m: 0.02 } }, lit],
  'on the backing, slot closed, no battens': [{ ...backed, sheet, battenWidth_m: 0 }, lit],
  'on the backing, without a cover': [with_(backed, open), unlit],
  'in the slot, less high than the front': [recessed, lit],
  'in the slot, as high as the front': [thinFront(recessed, 0.0105), lit],
  'in the slot, higher than the front': [thinFront(recessed, 0.006), lit],
  'in the slot, no battens': [{ ...thinFront(recessed, 0.006), battenWidth_m: 0 }, lit],
  'in the slot, without a cover': [with_(recessed, open), unlit],
  'at the side': [beside, lit],
  'at the side, without a cover': [with_(beside, open), unlit],
};

describe('a profile in the section', () => {
  it.each(Object.entries(sections))('%s: as many watts out as in', (_, [section, loads]) => {
    const field = fieldOf(section, loads);
    const out = Object.values(field.watts_W_per_m).reduce((sum, watts) => sum + watts, 0);
    expect(Math.abs(field.balance)).toBeLessThan(1e-3);
    // 6 W of the strip, 0.5 W in the walls, and 0.3 W in the cover where there is one.
    const heat = loads === lit ? 6.8 : 6.5;
    expect(Math.abs(out - heat)).toBeLessThan(2e-3 * heat);
  });

  it('is the same solved whole as solved in half', () => {
    const half = fieldOf(backed).temperatures;
    // Two micrometres to the side is the next place on the grid.
    const whole = fieldOf({ ...backed, strip: { ...backed.strip, offset_m: 2e-6 } }).temperatures;
    expect(whole.strip.mean_K).toBeCloseTo(half.strip.mean_K, 1);
    expect(whole.profile!.coverInside!.mean_K).toBeCloseTo(half.profile!.coverInside!.mean_K, 1);
    expect(Math.abs(whole.profile!.contact_W_per_m - half.profile!.contact_W_per_m)).toBeLessThan(0.01);
  });

  it.each(Object.entries({ backed, recessed: thinFront(recessed, 0.00612345), beside }))(
    '%s: takes sizes between the micrometres of its drawing',
    (_, section) => {
      const odd: Profile = {
        ...profile,
        ...{ base_m: 0.00151234, wall_m: 0.00103457, inside_m: 0.01200781, wallHeight_m: 0.00803459 },
      };
      const slotWidth_m = section.strip.mount === 'recessed' ? odd.inside_m + 2 * odd.wall_m : 0.0101239;
      const plain = fieldOf(section).temperatures.strip.mean_K;
      const strange = fieldOf({ ...with_({ ...section, slotWidth_m }, odd), cavityDepth_m: 0.03001237 });
      expect(Math.abs(strange.temperatures.strip.mean_K - plain)).toBeLessThan(0.3);
    },
  );

  it('is its mirror image to the other side', () => {
    const at = (offset_m: number) =>
      fieldOf({ ...backed, strip: { ...backed.strip, offset_m } }).temperatures;
    const [left, right] = [at(-0.02), at(0.02)];
    expect(left.strip.mean_K).toBeCloseTo(right.strip.mean_K, 2);
    expect(left.profile!.mean_K).toBeCloseTo(right.profile!.mean_K, 2);
    expect(left.cable.temperature_K).toBeCloseTo(right.cable.temperature_K, 2);
  });

  it('without walls to speak of is the aluminium flat of the same size', () => {
    const size = { thickness_m: 0.0015, width_m: 0.02 };
    const bare: SectionLoads = { strip_W_per_m: 6 };
    const carrier = { ...size, conductivity_W_per_mK: 200, emissivity: 0.8 };
    const flat = fieldOf({ ...panel, strip: { ...strip, carrier } }, bare).temperatures;
    const low: Profile = {
      ...{ ...open, base_m: size.thickness_m, inside_m: 0.0196, wall_m: 0.0002, wallHeight_m: 2e-5 },
      contact_m2K_per_W: 0,
    };
    const profiled = fieldOf(with_(backed, low), bare).temperatures;
    // The flat is some 15 K cooler than the strip alone; its edges, which do not radiate, are worth some 0.4 K.
    expect(flat.strip.mean_K - profiled.strip.mean_K).toBeGreaterThan(0);
    expect(flat.strip.mean_K - profiled.strip.mean_K).toBeLessThan(0.8);
    expect(Math.abs(flat.roomFace.temperature_K - profiled.roomFace.temperature_K)).toBeLessThan(0.2);
  });
});

/** A profile in the slot that touches nothing, so wide that only what goes through its cover counts. */
const alone = (inside_m: number, width_m: number, other: Partial<Profile> = {}): SectionDescription => ({
  ...panel,
  ...{ pitch_m: inside_m + 0.2, slotWidth_m: inside_m + 8e-6, battenWidth_m: 0.02 },
  front: { ...panel.front, thickness_m: 0.02 },
  strip: {
    ...strip,
    ...{ mount: 'recessed', width_m, contact_m2K_per_W: 0 },
    profile: {
      ...profile,
      inside_m,
      wall_m: 4e-6,
      outsideEmissivity: 1e-4,
      contact_m2K_per_W: 1e4,
      ...other,
    },
  },
  cavityAir: { correlation: 'still', along: 'alike', factor: 1e-3 },
});

describe('resistances in series', () => {
  it('are what a strip over all of a wide profile meets', () => {
    const [inside_m, watts] = [0.2, 20];
    const field = fieldOf(alone(inside_m, inside_m, { conductivity_W_per_mK: 1 }), { strip_W_per_m: watts });
    const { temperatures } = field;
    const flux = watts / inside_m;
    // From the room inwards: the film 0.13, the cover 0.001/0.2, then still air beside radiation between parallel plates.
    const cover_K = 296 + flux * (0.13 + 0.001 / 0.2);
    let strip_K = cover_K + 5;
    for (let round = 0; round < 50; round++) {
      const air = airAt((strip_K + cover_K) / 2).conductivity_W_per_mK / 0.008;
      const grey = 1 / (1 / 0.9 + 1 / 0.9 - 1);
      const rays = grey * 5.670_374e-8 * (strip_K ** 2 + cover_K ** 2) * (strip_K + cover_K);
      strip_K = cover_K + flux / (air + rays);
    }
    expect(Math.abs(temperatures.profile!.coverInside!.mean_K - cover_K)).toBeLessThan(
      0.01 * (cover_K - 296),
    );
    expect(Math.abs(temperatures.strip.mean_K - strip_K)).toBeLessThan(0.01 * (strip_K - 296));
  });
});

/**
 * A rod or plate that is warmed at one end and cooled along its length: `q = sqrt(h*P*k*A)*T*tanh(m*L)`, `m = sqrt(h*P/(k*A))`,
 * no heat through its far end.
 */
function finHeat_W(fin: {
  h: number;
  perimeter: number;
  k: number;
  area: number;
  length: number;
  excess: number;
}): number {
  const { h, perimeter, k, area, length, excess } = fin;
  const m = Math.sqrt((h * perimeter) / (k * area));
  return Math.sqrt(h * perimeter * k * area) * excess * Math.tanh(m * length);
}

describe('the base as a fin', () => {
  it('goes by the law of a printed example: aluminium rod, 5 mm, very long', () => {
    // F. P. Incropera et al., Fundamentals of Heat and Mass Transfer, example 3.9 (from memory): k 180, h 100, 100 against
    // 25 degC: 5.6 W.
    const rod = {
      h: 100,
      perimeter: Math.PI * 0.005,
      k: 180,
      area: (Math.PI * 0.005 ** 2) / 4,
      length: 1,
      excess: 75,
    };
    expect(finHeat_W(rod)).toBeCloseTo(5.6, 1);
  });

  it('carries the heat of a narrow strip to both sides of a wide profile', () => {
    const [inside_m, watts, k] = [0.4, 4, 50];
    const section = alone(inside_m, 0.004, {
      ...{ insideEmissivity: 1e-4, conductivity_W_per_mK: k, base_m: 0.001 },
      cover: { thickness_m: 0.001, conductivity_W_per_mK: 0.2, emissivity: 1e-4 },
    });
    const dark = { ...section, strip: { ...section.strip, emissivity: 1e-4 } };
    const { temperatures } = fieldOf(dark, { strip_W_per_m: watts });
    // Still air, cover and film: 0.008/k + 0.001/0.2 + 0.13, air at the mean of strip and cover, between 300 and 330 K.
    const air = airAt((temperatures.strip.mean_K + temperatures.profile!.coverInside!.mean_K) / 2);
    const h = 1 / (0.008 / air.conductivity_W_per_mK + 0.001 / 0.2 + 0.13);
    const perKelvin = 2 * finHeat_W({ h, perimeter: 1, k, area: 0.001, length: inside_m / 2, excess: 1 });
    const rise_K = watts / perKelvin;
    expect(Math.abs(temperatures.strip.mean_K - 296 - rise_K)).toBeLessThan(0.02 * rise_K);
  });
});

describe('air under a cover', () => {
  it('conducts as still air to 2 % below its limit, and an eighth better at 7000', () => {
    const nusselt = (rayleigh: number) => elSherbiny({ rayleigh, prandtl: 0.71, aspect: 100 });
    expect(nusselt(stillBelow_Ra)).toBeLessThan(1.025);
    expect(nusselt(7000)).toBeGreaterThan(1.1);
    expect(nusselt(7000)).toBeLessThan(1.17);
  });

  it('has the Rayleigh number of its height and difference', () => {
    // g*dT*L^3/(T*nu*alpha) at 320 K, 101.325 kPa: nu 17.6e-6, alpha 25.0e-6: 9.81*20*0.02^3/(320*17.6e-6*25e-6) = 11150.
    const rayleigh = innerRayleigh({ strip_K: 330, far_K: 310 }, 0.02);
    expect(Math.abs(rayleigh - 11150)).toBeLessThan(0.02 * 11150);
  });

  it('is said to move where it does', () => {
    const tall = { ...profile, wallHeight_m: 0.025, inside_m: 0.02 };
    const deep = { ...with_(backed, tall), cavityDepth_m: 0.06 };
    const said = (section: SectionDescription, watts: number) => {
      const outcome = solveSectionField(section, { strip_W_per_m: watts });
      return outcome.ok && outcome.notes.some((note) => note.includes('air inside the profile'));
    };
    expect(said(backed, 6)).toBe(false);
    expect(said(deep, 20)).toBe(true);
  });
});

describe('heat about a profile', () => {
  it('crosses its contact less, the worse that is', () => {
    const contact = (contact_m2K_per_W: number) =>
      fieldOf(with_(backed, { ...profile, contact_m2K_per_W })).temperatures.profile!.contact_W_per_m;
    const flows = [1e-4, 2e-3, 2e-2].map(contact);
    for (const [k, flow] of flows.entries()) if (k > 0) expect(flow).toBeLessThan(flows[k - 1]!);
    // What timber alone would let through behind a perfect contact is some 1.7 W; 14 mm through 0.02 m2K/W add 1.4 K/W.
    expect(flows.at(-1)!).toBeLessThan(0.8 * flows[0]!);
  });

  it('in the slot leaves by the cover, over the room film on all of its width', () => {
    const { temperatures, watts_W_per_m } = fieldOf(recessed);
    // 14 mm of cover through 0.13 m2K/W.
    const out = (0.014 * (temperatures.profile!.coverOutside!.mean_K - 296)) / 0.13;
    expect(Math.abs(watts_W_per_m.cover - out)).toBeLessThan(0.005 * out);
    expect(temperatures.roomFace.temperature_K).toBeGreaterThanOrEqual(
      temperatures.profile!.coverOutside!.peak.temperature_K - 1e-6,
    );
  });

  it('warms the cover from inside by what light leaves in it', () => {
    const rise = (cover: number) =>
      fieldOf(backed, { strip_W_per_m: 6, facesAbsorbed_W_per_m: { cover } }).temperatures.profile!
        .coverInside!.mean_K;
    expect(rise(1)).toBeGreaterThan(rise(0) + 2);
  });
});

describe('profiles that cannot be', () => {
  const codes = (section: SectionDescription) => sectionIssues(section).map(({ code }) => code);

  it.each<[string, SectionDescription, string]>([
    [
      'strip wider than the inside',
      { ...backed, strip: { ...backed.strip, width_m: 0.0125 } },
      'profile-narrower-than-strip',
    ],
    ['higher than the cavity', { ...backed, cavityDepth_m: 0.0105 }, 'profile-too-high'],
    [
      'higher than front and cavity',
      { ...thinFront(recessed, 0.006), cavityDepth_m: 0.0045 },
      'profile-too-high',
    ],
    [
      'higher than the bay is wide',
      { ...beside, slotWidth_m: 0.004, battenWidth_m: 0.1395 },
      'profile-too-high',
    ],
    ['wider than the bay', { ...backed, battenWidth_m: 0.136, slotWidth_m: 0.01 }, 'profile-has-no-room'],
    ['too near the front', { ...beside, strip: { ...beside.strip, offset_m: 0.006 } }, 'profile-has-no-room'],
    ['slot of another width', { ...recessed, slotWidth_m: 0.015 }, 'slot-not-as-wide-as-profile'],
    ['no batten', { ...beside, battenWidth_m: 0 }, 'side-needs-batten'],
    [
      'on the front',
      { ...backed, strip: { ...backed.strip, mount: 'front', offset_m: 0.03 } },
      'profile-not-there',
    ],
    ['recessed without one', { ...panel, strip: { ...strip, mount: 'recessed' } }, 'profile-not-there'],
    ['a sheet in its slot', { ...recessed, sheet }, 'profile-closes-slot'],
    [
      'a flat besides',
      {
        ...backed,
        strip: {
          ...backed.strip,
          carrier: { thickness_m: 0.002, width_m: 0.02, conductivity_W_per_mK: 160, emissivity: 0.8 },
        },
      },
      'profile-and-carrier',
    ],
  ])('%s', (_, section, code) => {
    expect(codes(section)).toEqual([code]);
  });

  it('fit with half a millimetre of air', () => {
    expect(codes({ ...backed, cavityDepth_m: 0.011 })).toEqual([]);
    expect(codes({ ...thinFront(recessed, 0.006), cavityDepth_m: 0.005 })).toEqual([]);
  });
});
