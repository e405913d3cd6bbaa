import { describe, expect, it } from 'vitest';
import type { Job } from '../../../src/job/job.ts';
import { stripCatalogue } from '../../../src/job/strip-catalogue.ts';
import {
  fullFlux_lm_per_m,
  levelShare,
  litSectionOfJob,
  nominal_W_per_m,
} from '../../../src/sizing/light-of-job.ts';
import { preparedOf, wallOf } from './small-wall.ts';

const section = (change: (section: Job['section']) => void) => {
  const { job, products, setOut } = preparedOf(wallOf([600, 850], (own) => change(own.section)));
  return litSectionOfJob(job, products, setOut);
};

describe('the section light is asked of', () => {
  it('is the cavity between battens: 250 mm from slot to slot, less 45', () => {
    const lit = section((own) => Object.assign(own, { batten_mm: 45, cavity_mm: 22, stripOffset_mm: 30 }));
    expect(lit.width_m).toBeCloseTo(0.205, 12);
    expect(lit).toMatchObject({ endless: false, depth_m: 0.022, slotWidth_m: 0.02 });
    expect(lit.strip.offset_m).toBeCloseTo(0.03, 12);
  });

  it('has no end without battens', () => {
    const lit = section((own) => Object.assign(own, { batten_mm: 0 }));
    expect(lit.endless).toBe(true);
    expect(lit.width_m).toBeCloseTo(0.25, 12);
  });

  it('has a slot as deep as the front before its cover: 12 mm open, 9 behind 3, none behind 15', () => {
    const deep = (cover: Job['section']['cover'], coverThickness_mm: number) =>
      section((own) => {
        own.front.thickness_mm = 12;
        Object.assign(own, { cover, coverThickness_mm });
      }).reveal!.depth_m;
    expect(deep('open', 3)).toBeCloseTo(0.012, 12);
    expect(deep('opal acrylic', 3)).toBeCloseTo(0.009, 12);
    expect(deep('opal acrylic', 15)).toBe(0);
  });
});

describe('a strip of two whites, 860 and 920 lm/m', () => {
  const strip = stripCatalogue.find(({ id }) => id === '24V-2x9.6W-two-white')!;

  it('has the lumens and watts of both, and of its levels the share of each', () => {
    expect(fullFlux_lm_per_m(strip)).toBe(1780);
    expect(nominal_W_per_m(strip)).toBeCloseTo(19.2, 12);
    expect(levelShare(strip, [0.5, 0.25])).toBeCloseTo((430 + 230) / 1780, 12);
  });
});
