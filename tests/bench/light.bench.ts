import { cavityLight } from '../../src/light/cavity.ts';
import { leastDepthHidingDots, leastLampsHidingDots } from '../../src/light/hidden-dots.ts';
import type { LitSection } from '../../src/light/section.ts';
import { wantedStrip } from '../../src/light/wanted.ts';

const open: LitSection = {
  ...{ width_m: 0.12, endless: false, depth_m: 0.036, slotWidth_m: 0.03, slotOffset_m: 0, sheet: null },
  strip: { mount: 'back', offset_m: 0, flux_lm_per_m: 1000, lampPitch_m: 1 / 60, halfAngle_deg: 55 },
  reflectance: { back: 0.8, sides: 0.6, front: 0.4 },
  reveal: { depth_m: 0.018, reflectance: 0.4 },
};
const closed: LitSection = { ...open, sheet: { transmittance: 0.55, reflectance: 0.35 } };
const endless: LitSection = { ...closed, endless: true };
const shallow: LitSection = { ...closed, depth_m: 0.012, strip: { ...open.strip, lampPitch_m: 1 / 30 } };

const sections: readonly (readonly [string, LitSection])[] = [
  ['open slot', open],
  ['sheet', closed],
  ['sheet, endless cavity', endless],
  ['sheet, 12 mm deep, 30 lamps per metre', shallow],
];

const view = { viewingDistance_m: 2, luminance_cd_per_m2: 200 };

/** Median of repeated runs after a warm-up, in milliseconds. */
function median_ms(run: () => unknown): number {
  for (let i = 0; i < 5; i++) run();
  const times = Array.from({ length: 15 }, () => {
    const start = performance.now();
    run();
    return performance.now() - start;
  });
  return times.sort((a, b) => a - b)[7] ?? Number.NaN;
}

function line(what: string, section: string, time_ms: number, target_ms: number): string {
  return `light | ${what} | ${section} | ${time_ms.toFixed(1)} ms | target ${target_ms} ms`;
}

/** One section's light, and the questions asked backwards: wanted strip, least depth, least lamps per metre. */
export async function benchLight(): Promise<void> {
  for (const [name, section] of sections) {
    const wish = { section, wanted_cd_per_m2: 200, lowestLight: 0.9, watts_per_m: 10 };
    const questions = [
      ['one section', 20, () => cavityLight(section)],
      ['strip for a wanted brightness', 200, () => wantedStrip(wish)],
      ['least depth that hides the dots', 200, () => leastDepthHidingDots(section, view)],
      ['least lamps that hide the dots', 200, () => leastLampsHidingDots(section, view)],
    ] as const;
    for (const [what, target_ms, run] of questions) console.log(line(what, name, median_ms(run), target_ms));
  }
}
