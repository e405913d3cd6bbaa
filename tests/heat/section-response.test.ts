import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Layer, SectionDescription, SectionLoads } from '../../src/heat/section-description.ts';
import { solveFirstMesh, solveSectionField } from '../../src/heat/section-field.ts';
import {
  type HeatReading,
  type Response,
  type Responses,
  type Rises,
  riseAt,
  riseAtEnd_K,
  riseAtShare_K,
  risesOf,
  sectionResponse,
} from '../../src/heat/section-response.ts';
import type { Outcome } from '../../src/outcome.ts';
import { anySection, carrier, panel, sheet } from './sections.ts';

const lampRise_K = 5;

/** Two meshes are within this of the confirmed answer. */
const meshDoubt_K = 0.15;

function granted<V>(outcome: Outcome<V>): V {
  if (!outcome.ok) throw new Error(outcome.issues[0]!.sentence);
  return outcome.value;
}

function loadsOf(watts: number): SectionLoads {
  return { strip_W_per_m: watts, facesAbsorbed_W_per_m: { backing: 0.1 * watts, front: 0.05 * watts } };
}

function fine(section: SectionDescription, loads: SectionLoads, rise_K = lampRise_K): Rises {
  const field = solveSectionField(section, loads, { lampRise_K: rise_K, confirm: false });
  return risesOf(granted(field), section.room_K);
}

/** Readings that stand beside a limit; the allowance for the upper end is within them. */
function limited(rises: Rises): [HeatReading, number][] {
  return (Object.entries(rises) as [HeatReading, number | null][]).flatMap(([reading, rise_K]) =>
    rise_K === null || reading === 'stratification' ? [] : [[reading, rise_K] as [HeatReading, number]],
  );
}

const responseTo = (responses: Responses, reading: HeatReading): Response => responses[reading]!;

/** Section with the usual air; other choices of air are not what a job asks for. */
const usual = (section: SectionDescription): SectionDescription => ({
  ...section,
  exchange: 'none',
  cavityAir: panel.cavityAir,
});

const ends = [-1, 1] as const;

/** Both ends of all four doubts, written out here apart from the engine: sixteen sections. */
function corners(section: SectionDescription): SectionDescription[] {
  const board = (layer: Layer, e: number, k: number): Layer => {
    const { low, high } = layer.conductivityRange ?? {
      low: 0.85 * layer.conductivity_W_per_mK,
      high: 1.15 * layer.conductivity_W_per_mK,
    };
    return {
      ...layer,
      emissivity: emissivity(layer.emissivity, e),
      conductivity_W_per_mK: k < 0 ? low : high,
    };
  };
  const emissivity = (value: number, e: number): number =>
    value < 0.5 ? value : Math.min(0.98, Math.max(0.5, value + 0.05 * e));
  const { strip, batten, cavityAir } = section;
  return ends.flatMap((a) =>
    ends.flatMap((e) =>
      ends.flatMap((c) =>
        ends.map((k) => ({
          ...section,
          front: board(section.front, e, k),
          backing: board(section.backing, e, k),
          batten: {
            emissivity: emissivity(batten.emissivity, e),
            conductivity_W_per_mK: batten.conductivity_W_per_mK * (1 + 0.15 * k),
          },
          sheet: section.sheet && { ...section.sheet, emissivity: emissivity(section.sheet.emissivity, e) },
          strip: {
            ...strip,
            emissivity: emissivity(strip.emissivity, e),
            contact_m2K_per_W: strip.contact_m2K_per_W * 2 ** c,
          },
          cavityAir: { ...cavityAir, factor: cavityAir.factor * (1 + 0.15 * a) },
        })),
      ),
    ),
  );
}

const light: SectionDescription = {
  ...panel,
  backing: { ...panel.backing, conductivity_W_per_mK: 0.17, conductivityRange: { low: 0.1, high: 0.2 } },
  front: { ...panel.front, conductivity_W_per_mK: 0.17, conductivityRange: { low: 0.1, high: 0.2 } },
};

const behind = (resistance_m2K_per_W: number, air_K: number): SectionDescription['behind'] => ({
  ...{ kind: 'room', resistance_m2K_per_W, air_K },
  resistanceRange: { low: 0.85 * resistance_m2K_per_W, high: 1.15 * resistance_m2K_per_W },
});
/** Before an outside wall in winter, and in the sun. */
const cold: SectionDescription = { ...panel, behind: behind(0.5, 270) };
const hot: SectionDescription = { ...light, behind: behind(0.5, 320) };

describe('the doubts of a section', () => {
  const known: SectionDescription[] = [
    panel,
    { ...panel, sheet, strip: { ...panel.strip, contact_m2K_per_W: 1.3e-3 } },
    { ...panel, strip: { ...panel.strip, carrier } },
    light,
  ];
  const random = fc.sample(anySection, { seed: 71, numRuns: 8 }).map(usual);

  it('at their warm end are as warm as the warmest of sixteen corners on fine meshes, and little more', () => {
    for (const section of [...known, ...random]) {
      const loads = loadsOf(8);
      const plain = fine(section, loads);
      const responses = granted(sectionResponse(section, loads, { lampRise_K }));
      const all = corners(section).map((corner) => fine(corner, loads));
      for (const [reading, rise_K] of limited(plain)) {
        const response = responseTo(responses, reading);
        const asDescribed = { described: 1, end: 1 };
        const warm_K = riseAtEnd_K('warm', rise_K, response, asDescribed);
        const cold_K = riseAtEnd_K('cold', rise_K, response, asDescribed);
        const rises = all.map((rises) => rises[reading]!);
        const [low, high] = [Math.min(...rises), Math.max(...rises)];
        expect(warm_K - high, reading).toBeGreaterThan(-meshDoubt_K);
        expect(warm_K - high, reading).toBeLessThan(0.15 * (high - rise_K) + 0.05);
        expect(cold_K - low, reading).toBeLessThan(0.1);
      }
    }
  });

  it('are solved alike on the mesh of the section as described and on a mesh of their own', () => {
    for (const section of [...known, ...random]) {
      const { level } = granted(solveFirstMesh(section, loadsOf(8), lampRise_K, null));
      for (const corner of corners(section).slice(0, 4)) {
        const [taken, own] = [level, null].map((like) =>
          granted(solveFirstMesh(corner, loadsOf(3), lampRise_K, like)),
        );
        expect(taken!.temperatures).toEqual(own!.temperatures);
        expect(taken!.stratification_K).toBe(own!.stratification_K);
      }
    }
  });
});

describe('the power of the watts', () => {
  it('carries every rise to other watts as the field itself has it', () => {
    for (const section of [
      panel,
      light,
      { ...panel, sheet, strip: { ...panel.strip, carrier } },
      cold,
      hot,
    ]) {
      const at = fine(section, loadsOf(8));
      const responses = granted(sectionResponse(section, loadsOf(8), { lampRise_K }));
      const asked = section.behind.kind === 'room' ? [1, 4, 12] : [0.4, 1, 2, 4, 7, 9, 12, 16, 24];
      for (const watts of asked) {
        const there = fine(section, loadsOf(watts), (lampRise_K * watts) / 8);
        for (const [reading, rise_K] of limited(at)) {
          // Before a warm wall the hottest place is another one at few watts than at many.
          const to = { described: 1, end: watts / 8 };
          const off_K = riseAtShare_K(rise_K, responseTo(responses, reading), to) - there[reading]!;
          expect(off_K, `${reading} at ${watts} W/m`).toBeGreaterThan(
            section.behind.kind === 'room' ? -1.2 : -0.1,
          );
          expect(off_K, `${reading} at ${watts} W/m`).toBeLessThan(
            watts > 12 ? 1.5 : section.behind.kind === 'room' ? 1.2 : 0.2,
          );
        }
      }
    }
  });

  it('is none at no watts, and never falls with the watts', () => {
    const responses = granted(sectionResponse(panel, loadsOf(8), { lampRise_K }));
    expect(riseAt(0, responses.tape!)).toBe(0);
    const rises = [1e-9, 1e-3, 0.1, 0.29, 0.3, 0.31, 1, 1.5, 2, 3].map((share) =>
      riseAt(share, responses.tape!),
    );
    expect(rises).toEqual(rises.toSorted((a, b) => a - b));
    expect(riseAt(1, responses.tape!)).toBe(1);
  });

  it('leaves what air behind of another temperature does by itself as it is', () => {
    for (const section of [cold, hot]) {
      const unlit = fine(section, loadsOf(0), 0);
      const responses = granted(sectionResponse(section, loadsOf(8), { lampRise_K }));
      for (const [reading, rise_K] of limited(fine(section, loadsOf(8)))) {
        const response = responseTo(responses, reading);
        expect(Math.abs(response.unlit_K! - unlit[reading]!), reading).toBeLessThan(meshDoubt_K);
        expect(Math.sign(response.unlit_K!)).toBe(section === cold ? -1 : 1);
        expect(riseAtShare_K(rise_K, response, { described: 1, end: 0 })).toBe(response.unlit_K);
      }
    }
  });

  it('is wider where the wall behind is doubtful', () => {
    const air_K = panel.room_K;
    const known: SectionDescription = {
      ...panel,
      behind: { kind: 'room', resistance_m2K_per_W: 0.5, air_K },
    };
    const [sure, unsure] = [known, { ...panel, behind: behind(0.5, air_K) }].map((section) =>
      granted(sectionResponse(section, loadsOf(8), { lampRise_K })),
    );
    expect(unsure!.timber!.warm).toBeGreaterThan(1.01 * sure!.timber!.warm);
    expect(unsure!.timber!.cold).toBeLessThan(sure!.timber!.cold);
    expect(unsure!.timber).not.toHaveProperty('unlit_K');
  });

  it('leaves a strip without watts at rest, its doubts included', () => {
    const responses = granted(sectionResponse(panel, loadsOf(0), { lampRise_K: 0 }));
    expect(responses.tape).toEqual({ power: 1, bend: 0, warm: 1, cold: 1 });
    expect(responses.sheet).toBeNull();
  });
});
