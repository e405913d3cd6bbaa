import { describe, expect, it } from 'vitest';
import type { LightAnswer } from '../../../src/answer/light.ts';
import type { StripChannel, StripData } from '../../../src/job/strip.ts';
import { stripCatalogue } from '../../../src/job/strip-catalogue.ts';
import { lampRise_K, loadsOfStrip } from '../../../src/sizing/heat-loads.ts';
import { lightAnswer } from '../../../src/sizing/light-answer.ts';
import { granted } from './granted.ts';
import { preparedOf, wallOf } from './small-wall.ts';

/** 2.4 W/m and 250 lm/m of white, 120 lamps a metre of 40 K/W. */
const strip: StripData = stripCatalogue.find(({ id }) => id === '24V-2.4W')!;

const light = { absorbed: { back: 0.1, sides: 0.2, front: 0.05, reveal: 0.03, sheet: 0.02 } } as LightAnswer;

const withChannels = (...changes: Partial<StripChannel>[]): StripData => ({
  ...strip,
  channels: changes.map((change) => ({ ...strip.channels[0]!, ...change })),
});

const opticalOf = (one: StripData, watts_per_m: number): number =>
  watts_per_m - loadsOfStrip(watts_per_m, one, light).strip_W_per_m;

describe('loads of the strip', () => {
  it('loses no watt: heat of the strip, light kept and light let out are what goes in', () => {
    const { job, products, setOut } = preparedOf(wallOf([600, 800]));
    const own = granted(lightAnswer({ job, ...products, setOut }));
    const loads = loadsOfStrip(2.4, products.strip, own);
    const kept = Object.values(loads.facesAbsorbed_W_per_m!).reduce((sum, watts) => sum + watts, 0);
    const optical = 2.4 - loads.strip_W_per_m;
    expect(optical).toBeCloseTo((250 / 2.4 / 315) * 2.4, 9);
    expect(kept + optical * own.outFraction).toBeCloseTo(optical, 6);
  });

  it('shares the light out over the faces as the light question did, at twice the nominal watts twice as much', () => {
    // 250 lm/m over 315 lm a watt of white light are 0.793651 W/m of 2.4; of 4.8 W/m they are 1.587302.
    const { strip_W_per_m, facesAbsorbed_W_per_m: faces } = loadsOfStrip(4.8, strip, light);
    expect(strip_W_per_m).toBeCloseTo(3.212698, 6);
    expect(faces!.backing).toBeCloseTo(0.1587302, 6);
    expect(faces!.sides).toBeCloseTo(0.3174603, 6);
    expect(faces!.front).toBeCloseTo(0.0793651, 6);
    expect(faces!.jambs).toBeCloseTo(0.047619, 6);
    expect(faces!.sheet).toBeCloseTo(0.031746, 6);
  });

  it('believes no more than 200 lm a watt, and counts colours at 683 lm a watt of light', () => {
    // 960 lm/m of 2.4 W/m are 400 lm/W: 480 of them are believed.
    expect(opticalOf(withChannels({ lumens_per_m: 960 }), 2.4)).toBeCloseTo(480 / 315, 9);
    expect(opticalOf(withChannels({ cct_K: null }), 2.4)).toBeCloseTo(250 / 683, 9);
    // Both together, 4.8 W/m.
    expect(opticalOf(withChannels({ cct_K: null }, {}), 4.8)).toBeCloseTo(250 / 683 + 250 / 315, 9);
  });
});

describe('the rise of a lamp over its strip', () => {
  it('is its own heat by its own resistance: 3.6 W/m over 120 lamps are 0.03 W, by 40 K/W 1.2 K', () => {
    expect(lampRise_K(strip, { strip_W_per_m: 3.6 })).toBeCloseTo(1.2, 12);
  });
});
