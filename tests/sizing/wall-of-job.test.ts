import { describe, expect, it } from 'vitest';
import { type Job, newJob, readJob, sizeJob, sizeJobCarefully } from '../../src/index.ts';
import type { Wall } from '../../src/job/wall.ts';
import { airGap, wallPresets } from '../../src/job/wall-presets.ts';

/** A short wall: a few slots of 1 m before a wall of layers. */
function job(change: (wall: Wall) => void = () => {}, preset = 0): Job {
  const made = newJob();
  Object.assign(made.panel, { width_mm: 800, height_mm: 1200 });
  made.section.behind = 'layers';
  made.section.wall = JSON.parse(JSON.stringify(wallPresets[preset]!.wall)) as Wall;
  change(made.section.wall);
  return made;
}

function sized(made: Job, size = sizeJob) {
  const outcome = size(made);
  if (!outcome.ok) throw new Error(outcome.issues.map(({ sentence }) => sentence).join(' '));
  return outcome.value;
}

const refusal = (made: Job) => {
  const outcome = sizeJob(made);
  return outcome.ok ? [] : outcome.issues.map(({ code, place }) => [code, place.field]);
};

const solder = (made: Job, size = sizeJob) =>
  sized(made, size).heat.temperatures.find(({ id }) => id === 'solder')!;

describe('a job without a wall of layers', () => {
  it('means what it meant', () => {
    const { wall: _, ...section } = newJob().section;
    const read = readJob({ ...newJob(), section });
    expect(read.ok && read.value.section.wall).toBeNull();
    expect(sized(newJob()).section.behind).toBeNull();
    const kept = job();
    kept.section.behind = 'insulation';
    expect(solder(kept).value_degC).toBe(
      solder({ ...kept, section: { ...kept.section, wall: null } }).value_degC,
    );
  });
});

describe('a wall of layers', () => {
  it('is worked out by the combined method: plasterboard, 75 mm of air with a tenth of timber, plasterboard', () => {
    // Boards 0.0125/0.21 = 0.05952 each; air 0.18, timber 0.075/0.13 = 0.57692; film 0.13.
    // Lower: 0.11905 + 1/(0.9/0.18 + 0.1/0.57692) + 0.13 = 0.11905 + 0.19330 + 0.13 = 0.44235.
    // Upper: ways of 0.42905 and 0.82597: 1/(0.9/0.42905 + 0.1/0.82597) = 0.45071.
    const { behind } = sized(job()).section;
    expect(behind!.lower_m2K_per_W).toBeCloseTo(0.44235, 4);
    expect(behind!.upper_m2K_per_W).toBeCloseTo(0.45071, 4);
    expect(behind!.resistance_m2K_per_W).toBeCloseTo(0.44653, 4);
    expect(behind!.layers.map(({ resistance_m2K_per_W }) => resistance_m2K_per_W)[1]).toBeCloseTo(0.1933, 4);
    // By itself with 0.13 on both faces: lower limit 0.57235; ways of 0.55905 and 0.95597, upper 0.58327.
    expect(behind!.U_W_per_m2K).toBeCloseTo(2 / (0.57235 + 0.58327), 3);
    expect(behind).toMatchObject({ beyond: 'room', beyond_degC: 26 });
  });

  it('is the inner wall there was where it is made of its layers, to the last bit', () => {
    const inner = newJob();
    inner.section.behind = 'inner wall';
    const { behind } = sized(inner).section;
    expect(behind!.resistance_m2K_per_W).toBe(0.18 + 0.0125 / 0.21 + 0.13);
  });

  it('lets less heat out the more it resists: hollow, behind a gap of air, filled with wool, insulation', () => {
    const gap = job(({ layers }) => layers.unshift(airGap));
    const insulation = job();
    insulation.section.behind = 'insulation';
    const warmth = [job(), gap, job(undefined, 1), insulation].map((made) => solder(made).value_degC);
    expect(warmth).toEqual(warmth.toSorted((a, b) => a - b));
    expect(warmth.at(-1)! - warmth[0]!).toBeGreaterThan(1);
  });

  it('has the watts through it in the balance, from behind where it is warmer there', () => {
    const hot = job((wall) => Object.assign(wall, { beyond: 'outside', beyond_degC: 60 }));
    const { heat } = sized(hot, sizeJobCarefully);
    const through = heat.paths.find(({ name }) => name === 'through the backing')!;
    expect(through.watts_per_m).toBeLessThan(0);
    expect(heat.paths.reduce((sum, { watts_per_m }) => sum + watts_per_m, 0)).toBeCloseTo(
      heat.heat_W_per_m,
      2,
    );
    expect(solder(hot).value_degC).toBeGreaterThan(solder(job()).value_degC + 5);
  });

  it('is as warm quickly as carefully, to what the confirming mesh may move, with another air behind', () => {
    for (const beyond_degC of [-10, 45]) {
      const made = job((wall) => Object.assign(wall, { beyond: 'outside', beyond_degC }));
      const [quick, careful] = [solder(made), solder(made, sizeJobCarefully)];
      expect(Math.abs(quick.value_degC - careful.value_degC)).toBeLessThan(0.3);
      expect(careful.high_degC).toBeGreaterThan(careful.value_degC);
      expect(careful.low_degC).toBeLessThan(careful.value_degC);
      expect(quick.high_degC).toBeGreaterThan(careful.high_degC - 0.1);
    }
  });

  it('takes the conductivity of the maker over that of the list, and foil on air', () => {
    const [plain, own, foil] = [
      job(),
      job(({ layers }) => Object.assign(layers[0]!, { conductivity_W_per_mK: 0.25, source: 'sheet' })),
      job(({ layers }) => Object.assign(layers[1]!, { emissivity: 0.05 })),
    ].map((made) => sized(made).section.behind!);
    expect(own!.layers[0]).toMatchObject({ resistance_m2K_per_W: 0.0125 / 0.25, source: 'sheet' });
    expect(foil!.resistance_m2K_per_W).toBeGreaterThan(plain!.resistance_m2K_per_W + 0.2);
  });
});

describe('a wall that cannot be worked out', () => {
  it('is refused with the field to fill in', () => {
    const none = job();
    none.section.wall = null;
    expect(refusal(none)).toEqual([['wall-missing', 'section.behind']]);
    expect(refusal(job(({ layers }) => Object.assign(layers[2]!, { material: 'other' })))).toEqual([
      ['conductivity-missing', 'section.wall.layers[3].conductivity_W_per_mK'],
    ]);
    expect(refusal(job(({ layers }) => Object.assign(layers[1]!, { thickness_mm: 301 })))).toEqual([
      ['air-layer-too-thick', 'section.wall.layers[2].thickness_mm'],
    ]);
    expect(refusal(job((wall) => Object.assign(wall, { beyond: 'outside' })))).toEqual([
      ['outside-temperature-missing', 'section.wall.beyond_degC'],
    ]);
    // 200 mm of wool a fifth bridged by what conducts 1.5: 5.71 and 0.133 m2K/W side by side.
    const bridged = job(({ layers }) =>
      Object.assign(layers[1]!, {
        ...{ material: 'mineral wool', thickness_mm: 200, timberShare: 0.2, bridge_W_per_mK: 1.5 },
      }),
    );
    expect(refusal(bridged)).toEqual([['wall-bridged-too-much', 'section.wall.layers']]);
    const read = readJob(job(({ layers }) => layers.splice(0, 3)));
    expect(read.ok ? [] : read.issues.map(({ place }) => place.field)).toEqual(['section.wall.layers']);
  });
});
