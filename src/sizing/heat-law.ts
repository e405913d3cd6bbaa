import type { LightAnswer } from '../answer/light.ts';
import type { Sizing } from '../answer/sizing.ts';
import { freezing_K } from '../constants.ts';
import type { HeatIssue } from '../heat/issues.ts';
import type { SectionDescription, SectionLoads } from '../heat/section-description.ts';
import { type SectionField, solveSectionField } from '../heat/section-field.ts';
import {
  type HeatReading,
  powerNear,
  type Responses,
  type Rises,
  riseAtEnd_K,
  riseAtShare_K,
  risesOf,
  sectionResponse,
  unconfirmed_K,
} from '../heat/section-response.ts';
import type { StripData } from '../job/strip.ts';
import { remembered } from '../numeric/remembered.ts';
import { found, type Outcome } from '../outcome.ts';
import { lampRise_K, loadsOfStrip } from './heat-loads.ts';
import { nominal_W_per_m } from './light-of-job.ts';

/** A section at the nominal watts of its strip, and how it answers to other watts and to what is not known. */
interface SolvedSection {
  readonly field: SectionField;
  readonly rises: Rises;
  readonly responses: Responses;
  readonly notes: readonly string[];
}

/** What decides the heat of a section: every number of it, so that the same section is solved once. */
interface Asked {
  readonly section: SectionDescription;
  readonly loads: SectionLoads;
  readonly lampRise_K: number;
  readonly confirm: boolean;
}

/** A session looks at a few sections in turn: what it edits, and what it compares that with. */
const rememberedCount = 16;

/** Remembered by themselves, being the same at either accuracy. */
const responsesOf = remembered(
  ({ section, loads, lampRise_K }: Omit<Asked, 'confirm'>) => sectionResponse(section, loads, { lampRise_K }),
  rememberedCount,
);

const solved = remembered(({ section, loads, ...request }: Asked): Outcome<SolvedSection, HeatIssue> => {
  const field = solveSectionField(section, loads, request);
  if (!field.ok) return field;
  const responses = responsesOf({ section, loads, lampRise_K: request.lampRise_K });
  if (!responses.ok) return responses;
  const rises = risesOf(field.value, section.room_K);
  return found({ field: field.value, rises, responses: responses.value, notes: field.notes });
}, rememberedCount);

/** Heat of a job's section as a law of the watts a metre of its strip; the one law of circuit and heat alike. */
export interface HeatLaw extends SolvedSection {
  readonly accuracy: Sizing['accuracy'];
  readonly nominal_W_per_m: number;
  readonly room_degC: number;
}

/**
 * The heat law of a section: its two-dimensional field at the nominal watts of the strip, without the confirming mesh for
 * a quick answer and with it for a careful one, carried to other watts by their power. A section that was asked about
 * before is not solved again. Refuses a section that cannot be, or that does not settle.
 *
 * Check: `tests/sizing/heat-law.test.ts`, against the field itself.
 */
export function heatLaw(
  section: SectionDescription,
  strip: StripData,
  light: LightAnswer,
  accuracy: Sizing['accuracy'],
): Outcome<HeatLaw, HeatIssue> {
  const nominal = nominal_W_per_m(strip);
  const loads = loadsOfStrip(nominal, strip, light);
  const request = { lampRise_K: lampRise_K(strip, loads), confirm: accuracy === 'careful' };
  const answer = solved({ section, loads, ...request });
  if (!answer.ok) return answer;
  const room_degC = section.room_K - freezing_K;
  return found({ ...answer.value, accuracy, nominal_W_per_m: nominal, room_degC });
}

/** Kelvins over the room of a reading at watts per metre of the strip; null where the place does not exist. */
export function riseOf(law: HeatLaw, reading: HeatReading, watts_per_m: number): number | null {
  const [rise_K, response] = [law.rises[reading], law.responses[reading]];
  if (rise_K === null || response === null) return null;
  return riseAtShare_K(rise_K, response, { described: 1, end: watts_per_m / law.nominal_W_per_m });
}

/** The power of the watts that the rise of a reading goes with, at some watts; 1 where nothing is known of it. */
export function powerOf(law: HeatLaw, reading: HeatReading, watts_per_m: number): number {
  const response = law.responses[reading];
  return response === null ? 1 : powerNear(watts_per_m / law.nominal_W_per_m, response);
}

/** Temperature of the strip at watts per metre, degC: where it is hottest across, at middle height. */
export function stripTemperature_degC(law: HeatLaw, watts_per_m: number): number {
  return law.room_degC + riseOf(law, 'strip', watts_per_m)!;
}

/** Least and greatest of a figure. */
export interface Ends {
  readonly least: number;
  readonly greatest: number;
}

/**
 * Band of a reading whose rise is known at some watts: doubts of the section, and the watts as far as they go either way.
 * Without the confirming mesh it is wider by what that might change. It always holds the reading itself: before a cold wall a face far
 * from the strip may be a few hundredths of a kelvin cooler with watts than without, since warmer air carries more across the cavity.
 */
export function bandOf(
  law: HeatLaw,
  reading: HeatReading,
  at: { readonly rise_K: number; readonly watts_per_m: number; readonly ends_W_per_m: Ends },
): Ends {
  const response = law.responses[reading];
  if (response === null) return { least: at.rise_K, greatest: at.rise_K };
  const { rise_K, watts_per_m, ends_W_per_m } = at;
  const to = (end_W_per_m: number) => ({
    described: watts_per_m / law.nominal_W_per_m,
    end: end_W_per_m / law.nominal_W_per_m,
  });
  const mesh_K = law.accuracy === 'quick' ? unconfirmed_K(rise_K) : 0;
  const least = Math.max(
    Math.min(0, response.unlit_K ?? 0),
    riseAtEnd_K('cold', rise_K, response, to(ends_W_per_m.least)) - mesh_K,
  );
  const greatest = riseAtEnd_K('warm', rise_K, response, to(ends_W_per_m.greatest)) + mesh_K;
  return { least: Math.min(least, rise_K), greatest: Math.max(greatest, rise_K) };
}
