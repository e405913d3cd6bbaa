import { found, type Outcome } from '../outcome.ts';
import type { HeatIssue } from './issues.ts';
import type { SectionTemperatures } from './section-answers.ts';
import type { SectionDescription, SectionLoads } from './section-description.ts';
import { type FieldRequest, type SectionField, solveSectionField } from './section-field.ts';

/** How far the uncertain inputs may be off. */
export interface Doubts {
  /** Share by which the convection of the gap may be off either way. */
  readonly correlation: number;
  /** Emissivity of timber, paint and plastic, either way. */
  readonly emissivity: number;
  /** The contact may be this many times smaller or larger. */
  readonly contactRatio: number;
}

/** Correlations differ by 10 to 15 %; handbook emissivities by 0.05; tapes by a factor of two. */
const usualDoubts: Doubts = { correlation: 0.15, emissivity: 0.05, contactRatio: 2 };

/** Lowest and highest of the corners. */
interface Range {
  readonly low_K: number;
  readonly high_K: number;
}

/** The band of every named temperature, and the corner hottest at the strip. */
export interface SectionBand {
  readonly stripPeak: Range;
  readonly solderPoint: Range;
  readonly hottestTimber: Range;
  readonly glueLine: Range | null;
  readonly cable: Range;
  readonly roomFace: Range;
  readonly sheet: Range | null;
  /** The answer at the corner with the hottest strip: the unfavourable end. */
  readonly unfavourable: SectionField;
  readonly cornerCount: number;
}

function corner(
  section: SectionDescription,
  doubts: Doubts,
  signs: readonly [number, number, number],
): SectionDescription {
  const shiny = 0.5;
  const emissivity = (e: number): number =>
    e < shiny ? e : Math.min(0.98, Math.max(shiny, e + signs[1] * doubts.emissivity));
  const layer = <T extends { readonly emissivity: number }>(l: T): T => ({
    ...l,
    emissivity: emissivity(l.emissivity),
  });
  const { strip, cavityAir } = section;
  return {
    ...section,
    front: layer(section.front),
    backing: layer(section.backing),
    batten: layer(section.batten),
    sheet: section.sheet === null ? null : layer(section.sheet),
    strip: { ...layer(strip), contact_m2K_per_W: strip.contact_m2K_per_W * doubts.contactRatio ** signs[2] },
    cavityAir: { ...cavityAir, factor: cavityAir.factor * (1 + signs[0] * doubts.correlation) },
  };
}

/** Both ends of each doubt with both ends of every other. */
const corners: readonly (readonly [number, number, number])[] = [-1, 1].flatMap((a) =>
  [-1, 1].flatMap((b) => [-1, 1].map((c) => [a, b, c] as const)),
);

function rangeOf(
  answers: readonly SectionField[],
  read: (t: SectionTemperatures) => number | undefined,
): Range | null {
  const values = answers.map((answer) => read(answer.temperatures));
  const known = values.filter((value) => value !== undefined);
  return known.length < values.length ? null : { low_K: Math.min(...known), high_K: Math.max(...known) };
}

/**
 * The band of a section's temperatures: the eight corners of correlation, emissivity and contact.
 * Emissivities below a half (bare metal) are left as they are. Does not cover what the model itself leaves out.
 *
 * @param section, loads, request as for `solveSectionField`, with the same refusals
 * Source: corner evaluation; the doubts are those stated by the sources of the correlations and handbooks.
 * Check: the plain answer lies within, `tests/heat/questions.test.ts`.
 */
export function temperatureBand(
  section: SectionDescription,
  loads: SectionLoads,
  request: FieldRequest,
  doubts: Doubts = usualDoubts,
): Outcome<SectionBand, HeatIssue> {
  const quick = { ...request, confirm: false };
  const answers: SectionField[] = [];
  for (const signs of corners) {
    const outcome = solveSectionField(corner(section, doubts, signs), loads, quick);
    if (!outcome.ok) return outcome;
    answers.push(outcome.value);
  }
  const range = (read: (t: SectionTemperatures) => number): Range => rangeOf(answers, read)!;
  const hotter = (a: SectionField, b: SectionField): SectionField =>
    b.temperatures.strip.peak.temperature_K > a.temperatures.strip.peak.temperature_K ? b : a;
  return found({
    stripPeak: range((t) => t.strip.peak.temperature_K),
    solderPoint: range((t) => t.solderPoint_K),
    hottestTimber: range((t) => t.hottestTimber.temperature_K),
    glueLine: rangeOf(answers, (t) => t.glueLine?.temperature_K),
    cable: range((t) => t.cable.temperature_K),
    roomFace: range((t) => t.roomFace.temperature_K),
    sheet: rangeOf(answers, (t) => t.sheet?.temperature_K),
    unfavourable: answers.reduce(hotter),
    cornerCount: corners.length,
  });
}
