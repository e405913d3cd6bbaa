import { describe, expect, it } from 'vitest';
import type { LightAnswer } from '../../../src/answer/light.ts';
import type { Job } from '../../../src/job/job.ts';
import { stripCatalogue } from '../../../src/job/strip-catalogue.ts';
import { hexColour, linearRgb, planckianChromaticity } from '../../../src/light/colour.ts';
import { lightAnswer } from '../../../src/sizing/light-answer.ts';
import { granted } from './granted.ts';
import { preparedOf, wallOf } from './small-wall.ts';

function ask(change: (job: Job) => void = () => {}) {
  const { job, products, setOut } = preparedOf(wallOf([600, 800], change));
  return lightAnswer({ job, ...products, setOut });
}

/** The answer with the light of its one zone laid open. */
const opened = (light: LightAnswer) => ({ ...light, ...light.zones[0]! });

const lit = (change: (job: Job) => void = () => {}) => opened(granted(ask(change)));

/** Two white channels of 860 and 920 lm/m at given levels. */
const twoWhite =
  (levels: number[], wanted_cd_per_m2 = 200) =>
  (job: Job): void => {
    job.strip.entry = '24V-2x9.6W-two-white';
    job.dimming.levels = levels;
    job.light.wanted_cd_per_m2 = wanted_cd_per_m2;
  };

/** As the new job has it, two slots. */
const plain = () => lit();

describe('light of a slot', () => {
  it('is that at full times its level: 0.15 of it, wanted 200 cd/m2', () => {
    expect(plain().luminance_cd_per_m2).toBeCloseTo(0.15 * plain().full_cd_per_m2, 9);
    expect(plain().lowest_cd_per_m2).toBeCloseTo(0.15 * plain().full_cd_per_m2, 9);
    expect(plain().levels).toEqual({ full: 1, working: [0.15], lowest: 0.15 });
  });

  it('needs lumens and watts in proportion: 200 cd/m2 over what 250 lm/m and 2.4 W/m give at full', () => {
    expect(plain().neededFlux_lm_per_m).toBeCloseTo((200 / plain().full_cd_per_m2) * 250, 9);
    expect(plain().needed_W_per_m).toBeCloseTo((200 / plain().full_cd_per_m2) * 2.4, 9);
  });

  it('is taken by the faces but for what leaves', () => {
    const { back, sides, front, reveal, sheet } = plain().absorbed;
    expect(back + sides + front + reveal + sheet + plain().outFraction).toBeCloseTo(1, 6);
    for (const share of [back, sides, front, reveal, sheet]) expect(share).toBeGreaterThan(0);
  });

  it('is profiled over two lamp pitches of 8.333 mm, the same in both and 1 on average', () => {
    const { profile } = lit((job) => Object.assign(job.section, { cover: 'open', cavity_mm: 8 }));
    const relative = profile.map((one) => one.relative);
    expect(profile.map(({ along_mm }) => along_mm)).toEqual(
      Array.from({ length: 97 }, (_, i) => expect.closeTo((i * 1000) / 120 / 48, 9)),
    );
    for (let i = 0; i <= 48; i++) expect(relative[i + 48]).toBeCloseTo(relative[i]!, 9);
    // Brightest beside a lamp, darkest between two.
    expect(Math.max(...relative)).toBe(relative[0]);
    expect(Math.min(...relative)).toBeCloseTo(relative[24]!, 12);
    expect(relative.slice(0, 48).reduce((sum, one) => sum + one, 0) / 48).toBeCloseTo(1, 9);
  });

  it('has no lowest level where nothing is lit, and still a cavity', () => {
    const dark = lit((job) => {
      job.dimming.levels = [0];
    });
    expect(dark).toMatchObject({ lowest_cd_per_m2: null, luminance_cd_per_m2: 0, band: 'barely-lit' });
    expect(dark.full_cd_per_m2).toBeCloseTo(plain().full_cd_per_m2, 9);
    expect(dark.visibility).toBeGreaterThanOrEqual(0);
  });

  it('is refused for a section that cannot be', () => {
    expect(ask((job) => Object.assign(job.section, { stripOffset_mm: 900 })).ok).toBe(false);
  });
});

describe('the colour of a strip', () => {
  const hexAt = (temperature_K: number): string => hexColour(linearRgb(planckianChromaticity(temperature_K)));

  it('is that of its white, mixed by lumens in mired', () => {
    expect(plain().colourHex).toBe(hexAt(2700));
    // 860 of 1,780 lm at 2700 K, 370.37 mired, 920 at 5000 K, 200 mired: 282.314 mired, 3542.15 K.
    expect(lit(twoWhite([1, 1])).colourHex).toBe(hexAt(3542.15));
  });

  it('leaves coloured channels out, and is a warm white of 3000 K where there is no other', () => {
    const [channel] = stripCatalogue.find(({ id }) => id === '24V-2.4W')!.channels;
    const of = (ccts: (number | null)[]) =>
      lit((job) => {
        job.strip.data.channels = ccts.map((cct_K) => ({ ...channel!, lumens_per_m: 100, cct_K }));
        job.dimming.levels = ccts.map(() => 1);
      }).colourHex;
    expect(of([null, 5000])).toBe(hexAt(5000));
    expect(of([null])).toBe(hexAt(3000));
  });
});

describe('what the eye meets', () => {
  it('is a cover that spreads, else the back, through a cover that does not or through none', () => {
    const seen = (['opal acrylic', 'satin or frosted acrylic', 'open'] as const).map(
      (cover) => lit((job) => Object.assign(job.section, { cover })).seen,
    );
    expect(seen).toEqual(['cover', 'back through the cover', 'back']);
  });

  /** A slot 10 mm wide, open, with lamps straight behind it: seen within 5 mm * 2034/34 = 299 mm to either side. */
  const open = (x0_mm: number, y0_mm: number, x1_mm: number, y1_mm: number) =>
    ask((job) => {
      job.slots = { from: 'segments', width_mm: 10, segments: [{ x0_mm, y0_mm, x1_mm, y1_mm }] };
      job.section.cover = 'open';
    });

  it('are the lamps themselves for everybody who may stand before an open upright slot', () => {
    const upright = open(2300, 100, 2300, 400);
    const { bareLampsSeen, dotsSeen, dots } = opened(granted(upright));
    expect(bareLampsSeen).toEqual(['standing', 'sitting']);
    expect(dotsSeen).toBe('plain');
    expect(dots).toMatch(/themselves can be seen through the slot/);
    expect(upright.ok && upright.notes.join()).toMatch(/into the bare LEDs/);
  });

  it('are the lamps of a level slot for eyes within 299 mm of its height, 1.6 m standing and 1.2 m sitting', () => {
    // The panel hangs 150 mm over the floor.
    expect(granted(open(100, 1450, 1300, 1450)).bareLampsSeen).toEqual(['standing']);
    expect(granted(open(100, 1050, 1300, 1050)).bareLampsSeen).toEqual(['sitting']);
    expect(granted(open(100, 300, 1300, 300)).bareLampsSeen).toEqual([]);
  });

  it('is judged for dots by its contrast where no lamp is in view: hidden below 1, plain above 10', () => {
    const seen = (change: (job: Job) => void) => {
      const { bareLampsSeen, dotsSeen, dots, visibility } = lit(change);
      return {
        bareLampsSeen,
        dotsSeen,
        isSaid: /^The LEDs (do not show|show plainly)/.test(dots),
        visibility,
      };
    };
    const even = seen(() => {});
    expect(even).toMatchObject({ bareLampsSeen: [], dotsSeen: 'hidden', isSaid: true });
    expect(even.visibility).toBeLessThan(1);
    // Lamps 8.3 mm apart, 6 mm behind a cover that lets most of the light straight on.
    const dotted = seen((job) => Object.assign(job.section, { cover: 'light opal acrylic', cavity_mm: 6 }));
    expect(dotted).toMatchObject({ bareLampsSeen: [], dotsSeen: 'plain', isSaid: true });
    expect(dotted.visibility).toBeGreaterThan(10);
  });

  it('are no lamps behind a cover that spreads', () => {
    expect(plain()).toMatchObject({ bareLampsSeen: [], seen: 'cover' });
    expect(plain().dots).not.toMatch(/themselves can be seen/);
  });
});

describe('the levels a wanted brightness needs', () => {
  const needed = (levels: number[], wantedShare: number) => {
    const full = lit(twoWhite([1, 1])).full_cd_per_m2;
    return lit(twoWhite(levels, wantedShare * full)).neededLevels;
  };

  /** Light of both at levels, of all: 860 and 920 of 1,780 lm. */
  const share = (one: number, two: number): number => (one * 860 + two * 920) / 1780;

  it('keep the mix of the channels while that is possible', () => {
    expect(needed([0.4, 0.2], share(0.2, 0.1))).toEqual([0.2, 0.1]);
    expect(needed([0.5, 0.25], share(1, 0.5))).toEqual([1, 0.5]);
    expect(needed([0.4, 0], share(0.8, 0))).toEqual([0.8, 0]);
  });

  it('are all alike where the mix would go beyond full, or where nothing is lit', () => {
    expect(needed([0.5, 0.25], 0.8)).toEqual([0.8, 0.8]);
    expect(needed([0, 0], 0.3)).toEqual([0.3, 0.3]);
  });

  it('are rounded up to a tenth of a percent, and below to two figures', () => {
    expect(needed([0.5, 0.5], 0.1234)).toEqual([0.124, 0.124]);
    expect(needed([0.5, 0.5], 0.000123)).toEqual([0.00013, 0.00013]);
  });

  it('are none where full is not enough, and full where it just is', () => {
    expect(needed([0.5, 0.5], 1.001)).toEqual([]);
    expect(needed([1, 1], 1)).toEqual([1, 1]);
  });
});
