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
        const { warm, cold } = responseTo(responses, reading);
        const rises = all.map((rises) => rises[reading]!);
        const [low, high] = [Math.min(...rises), Math.max(...rises)];
        expect(warm * rise_K - high, reading).toBeGreaterThan(-meshDoubt_K);
        expect(warm * rise_K - high, reading).toBeLessThan(0.15 * (high - rise_K) + 0.05);
        expect(cold * rise_K - low, reading).toBeLessThan(0.1);
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
    for (const section of [panel, light, { ...panel, sheet, strip: { ...panel.strip, carrier } }]) {
      const at = fine(section, loadsOf(8));
      const responses = granted(sectionResponse(section, loadsOf(8), { lampRise_K }));
      for (const watts of [0.4, 1, 2, 4, 7, 9, 12, 16, 24]) {
        const there = fine(section, loadsOf(watts), (lampRise_K * watts) / 8);
        for (const [reading, rise_K] of limited(at)) {
          const off_K = rise_K * riseAt(watts / 8, responseTo(responses, reading)) - there[reading]!;
          expect(off_K, `${reading} at ${watts} W/m`).toBeGreaterThan(-0.1);
          expect(off_K, `${reading} at ${watts} W/m`).toBeLessThan(watts > 12 ? 1.5 : 0.2);
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

  it('leaves a strip without watts at rest, its doubts included', () => {
    const responses = granted(sectionResponse(panel, loadsOf(0), { lampRise_K: 0 }));
    expect(responses.tape).toEqual({ power: 1, bend: 0, warm: 1, cold: 1 });
    expect(responses.sheet).toBeNull();
  });
});
