import { describe, expect, it } from 'vitest';
import type { Job } from '../../../src/job/job.ts';
import { litSectionOfJob } from '../../../src/sizing/light-of-job.ts';
import { sectionAnswer } from '../../../src/sizing/section-answer.ts';
import { sectionOfJob } from '../../../src/sizing/section-of-job.ts';
import { preparedOf, wallOf } from './small-wall.ts';

/** Slots 160 and 200 mm apart, the middle one 700 mm long; every thickness and width another number. */
function wall(change: Partial<Job['section']> = {}): Job {
  return wallOf([600, 760, 960], (job) => {
    if (job.slots.from === 'segments') Object.assign(job.slots.segments[1]!, { y1_mm: 800 });
    Object.assign(job.slots, { width_mm: 14 });
    Object.assign(job.section, {
      ...{ cavity_mm: 21, batten_mm: 58, coverThickness_mm: 3, stripOffset_mm: 4, available_mm: 47 },
      ...{ carrierWidth_mm: 26, carrierThickness_mm: 2 },
      ...{ backFinish: 'matt white paint', sideFinish: 'light oak', frontFinish: 'walnut' },
      ...change,
    });
    Object.assign(job.section.backing, { material: 'birch plywood', thickness_mm: 9 });
    Object.assign(job.section.front, { material: 'oak', thickness_mm: 13 });
    job.site.room_degC = 27;
  });
}

function heatSection(change: Partial<Job['section']> = {}) {
  const { job, products, setOut } = preparedOf(wall(change));
  return sectionOfJob(job, products, setOut);
}

function lightSection(change: Partial<Job['section']> = {}) {
  const { job, products, setOut } = preparedOf(wall(change));
  return litSectionOfJob(job, products, setOut);
}

describe('the section heat is asked of', () => {
  it('is in metres and kelvins: tightest pitch, longest slot, every layer', () => {
    expect(heatSection()).toMatchObject({
      ...{ pitch_m: 0.16, slotWidth_m: 0.014, slotHeight_m: 1, cavityDepth_m: 0.021, battenWidth_m: 0.058 },
      ...{ room_K: 300.15, exchange: 'none', behind: { kind: 'insulation' } },
      // Oak 0.17 (ASHRAE), birch plywood 0.17 within 0.10 to 0.20, softwood 0.12, acrylic 0.18 W/(m K).
      front: { thickness_m: 0.013, conductivity_W_per_mK: 0.17, emissivity: 0.9 },
      backing: { thickness_m: 0.009, conductivityRange: { low: 0.1, high: 0.2 } },
      batten: { conductivity_W_per_mK: 0.12, emissivity: 0.9 },
      sheet: { thickness_m: 0.003, conductivity_W_per_mK: 0.18, emissivity: 0.9 },
      strip: { mount: 'backing', width_m: 0.008, offset_m: 0.004, carrier: null },
    });
    expect(heatSection().front).not.toHaveProperty('conductivityRange');
    // A board whose range its entry leaves open is known to 15 % only.
    expect(heatSection().backing.conductivityRange).toBeDefined();
  });

  it('has the carrier in aluminium of 160 W/(m K), where there is one', () => {
    expect(heatSection({ carrier: 'flat aluminium' }).strip.carrier).toEqual({
      ...{ thickness_m: 0.002, width_m: 0.026, conductivity_W_per_mK: 160, emissivity: 0.8 },
      // Screwed on dry, as a new job begins.
      contact_m2K_per_W: 2e-3,
    });
  });

  it('has no sheet in an open slot', () => {
    expect(heatSection({ cover: 'open' }).sheet).toBeNull();
  });

  it('counts a side mount from the front: 4 mm towards it from the middle of 21 mm leaves 6.5 mm', () => {
    expect(heatSection({ strip: 'side' }).strip.offset_m).toBeCloseTo(0.0065, 12);
    expect(heatSection({ strip: 'front' }).strip).toMatchObject({ mount: 'front', offset_m: 0.004 });
  });

  it('has an inner wall behind it where it backs on a room: 0.18 + 0.0125/0.21 + 0.13 = 0.369524 m2 K/W', () => {
    const { behind } = heatSection({ behind: 'inner wall' });
    expect(behind).toMatchObject({ kind: 'room', air_K: 300.15 });
    if (behind.kind === 'room') expect(behind.resistance_m2K_per_W).toBeCloseTo(0.369524, 6);
  });
});

describe('the section light is asked of', () => {
  it('is the same one in metres: 160 less 58 mm wide', () => {
    const section = lightSection();
    expect(section.width_m).toBeCloseTo(0.102, 12);
    expect(section.reveal.depth_m).toBeCloseTo(0.01, 12);
    expect(section).toMatchObject({
      ...{ endless: false, depth_m: 0.021, slotWidth_m: 0.014, slotOffset_m: 0 },
      strip: { mount: 'back', offset_m: 0.004, flux_lm_per_m: 250, lampPitch_m: 1 / 120, halfAngle_deg: 60 },
      // White paint 0.8, light oak 0.4, walnut 0.15 (tables of reflectances, secondary copies).
      reflectance: { back: 0.8, sides: 0.4, front: 0.15 },
      sheet: { transmittance: 0.55, reflectance: 0.35 },
      reveal: { reflectance: 0.15 },
    });
  });

  it('repeats without end where there is no batten', () => {
    expect(lightSection({ batten_mm: 0 })).toMatchObject({ endless: true, width_m: 0.16 });
  });

  it('is as deep before its cover as the front is thick, less the cover, and never less than nothing', () => {
    expect(lightSection({ cover: 'open' })).toMatchObject({ sheet: null, reveal: { depth_m: 0.013 } });
    expect(lightSection({ coverThickness_mm: 15 }).reveal.depth_m).toBe(0);
  });
});

describe('the section of the answer', () => {
  it('has its layers from the wall and their sum: 9 + 21 + 13 = 43 of 47 mm', () => {
    const job = wall();
    const { layers, ...rest } = sectionAnswer(job, preparedOf(job).products, 160);
    expect(rest).toEqual({
      ...{ pitch_mm: 160, edge_mm: null, depth_mm: 43, available_mm: 47 },
      ...{ behind: null, profile: null },
    });
    expect(layers).toEqual([
      { id: 'backing', name: 'Backing, birch plywood', thickness_mm: 9 },
      { id: 'cavity', name: 'Cavity with the strip', thickness_mm: 21 },
      { id: 'front', name: 'Front, oak', thickness_mm: 13 },
    ]);
  });
});
