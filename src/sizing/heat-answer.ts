import type { HeatAnswer } from '../answer/heat.ts';
import { freezing_K } from '../constants.ts';
import type { HeatIssue } from '../heat/issues.ts';
import type { LimitedPlace } from '../heat/limits.ts';
import type { SectionTemperatures, Spot } from '../heat/section-answers.ts';
import {
  type SectionDescription,
  type SectionLoads,
  totalHeat_W_per_m,
} from '../heat/section-description.ts';
import { isInnerAirMoving, type SectionField, solveSectionField } from '../heat/section-field.ts';
import { type Rises, risesOf } from '../heat/section-response.ts';
import type { Job } from '../job/job.ts';
import type { Products } from '../job/products.ts';
import type { StripData } from '../job/strip.ts';
import { found, type Outcome } from '../outcome.ts';
import { bandOf, type Ends, type HeatLaw, powerOf, riseOf } from './heat-law.ts';
import { lampRise_K } from './heat-loads.ts';
import { heatPlaces, temperatureRow } from './heat-places.ts';
import { lifeAnswer } from './life-answer.ts';

/** What the section of a job is asked for heat with. */
export interface HeatQuestion {
  readonly job: Job;
  readonly strip: StripData;
  readonly profile: Products['profile'];
  readonly section: SectionDescription;
  readonly law: HeatLaw;
  readonly loads: SectionLoads;
  readonly electrical_W_per_m: number;
  /** The same over the tolerances of the circuit. */
  readonly ends_W_per_m: Ends;
  /** Why temperatures of this section do not hold for the job; null where they do. */
  readonly unknown: string | null;
}

function sizesOf({ loads, electrical_W_per_m, ends_W_per_m }: HeatQuestion) {
  return {
    strip_W_per_m: electrical_W_per_m,
    stripBand_W_per_m: { ...ends_W_per_m },
    heat_W_per_m: totalHeat_W_per_m(loads),
  };
}

const spotOf: Readonly<Record<LimitedPlace, (t: SectionTemperatures) => Spot | null>> = {
  solderPoint: (t) => t.strip.peak,
  tape: (t) => t.strip.peak,
  timber: (t) => t.hottestTimber,
  glueLine: (t) => t.glueLine,
  cable: (t) => t.cable,
  roomFace: (t) => t.roomFace,
  sheet: (t) => t.sheet,
  coverInside: (t) => t.profile?.coverInside?.peak ?? null,
  coverOutside: (t) => t.profile?.coverOutside?.peak ?? null,
};

const mm = (m: number): number => 1000 * m;

/** Rises at the watts of the question, and the field they or their places are read off. */
interface Solved {
  readonly field: SectionField;
  readonly rises: Rises;
}

/** One row for each place there is, the allowance for the upper end included in value and band alike. */
function rows(question: HeatQuestion, { field, rises }: Solved): HeatAnswer['temperatures'] {
  const { law, electrical_W_per_m: watts_per_m, ends_W_per_m } = question;
  return (Object.keys(heatPlaces) as LimitedPlace[]).flatMap((place) => {
    const rise_K = rises[place];
    const spot = spotOf[place](field.temperatures);
    if (rise_K === null || spot === null) return [];
    const band = bandOf(law, place, { rise_K, watts_per_m, ends_W_per_m });
    const row = {
      place,
      value_degC: law.room_degC + rise_K,
      low_degC: law.room_degC + band.least,
      high_degC: law.room_degC + band.greatest,
      power: powerOf(law, place, watts_per_m),
      x_mm: mm(spot.x_m),
      y_mm: mm(spot.y_m),
    };
    return [temperatureRow(row, question)];
  });
}

const pathNames = {
  front: 'through the front to the room',
  jambs: 'through the jambs of the slot',
  sheet: 'through the slot cover',
  cover: 'through the cover of the profile',
  profile: 'from the rims of the profile',
  openSlotRadiation: 'radiated out of the open slot',
  airExchange: 'with air through the slot',
  behind: 'through the backing',
} as const;

/** Where the watts go, by the shares of the field. */
function pathsOf(field: SectionField, heat_W_per_m: number): HeatAnswer['paths'] {
  const share = field.heat_W_per_m === 0 ? 0 : heat_W_per_m / field.heat_W_per_m;
  return Object.entries(pathNames)
    .map(([key, name]) => ({ name, watts_per_m: share * field.watts_W_per_m[key as keyof typeof pathNames] }))
    .filter((path) => path.watts_per_m !== 0);
}

/** Temperatures of the profile itself; of a field carried to other watts by what the strip's rise changes. */
function profileOf({ field, rises }: Solved, law: HeatLaw): HeatAnswer['profile'] {
  const { room_degC } = law;
  const { profile, strip } = field.temperatures;
  if (profile === null) return null;
  const room_K = room_degC + freezing_K;
  const unlit_K = law.responses.strip!.unlit_K ?? 0;
  const rise_K = strip.peak.temperature_K - room_K - unlit_K;
  const share = rise_K === 0 ? 0 : (rises.strip! - unlit_K) / rise_K;
  const carried = (kelvin: number): number => room_degC + unlit_K + share * (kelvin - room_K - unlit_K);
  return {
    mean_degC: carried(profile.mean_K),
    coverInside_degC: profile.coverInside && carried(profile.coverInside.mean_K),
    coverOutside_degC: profile.coverOutside && carried(profile.coverOutside.mean_K),
    air_degC: carried(profile.air_K),
    contact_W_per_m: share * profile.contact_W_per_m,
    airMoves: isInnerAirMoving(profile),
  };
}

function pictureOf(field: SectionField): HeatAnswer['field'] {
  const { xs, ys, temperature_K, half } = field.picture;
  return {
    xs_mm: Array.from(xs, mm),
    ys_mm: Array.from(ys, mm),
    temperature_degC: Array.from(temperature_K, (kelvin) =>
      Number.isNaN(kelvin) ? null : kelvin - freezing_K,
    ),
    half,
    meshes: field.meshHistory.map(({ nodeCount, stripPeak_K, moved_K }) => ({
      nodeCount,
      stripPeak_degC: stripPeak_K - freezing_K,
      moved_K,
    })),
  };
}

const validity =
  'For upright slots. Readings of this model differ by 1 to 4 K and a real cavity by several; the band covers the watts over the tolerances of the circuit, the conductivity of the boards, gap correlation, emissivity and contact.';

/** The field at the watts of the question, confirmed. */
function solvedAt({ section, loads, strip }: HeatQuestion): Outcome<Solved, HeatIssue> {
  const field = solveSectionField(section, loads, { lampRise_K: lampRise_K(strip, loads) });
  if (!field.ok) return field;
  return found({ field: field.value, rises: risesOf(field.value, section.room_K) }, field.notes);
}

/** The field at the nominal watts of the strip, carried to those of the question. */
function carriedTo({ law, electrical_W_per_m }: HeatQuestion): Outcome<Solved, never> {
  const rises = Object.keys(law.rises).map((reading) => [
    reading,
    riseOf(law, reading as keyof Rises, electrical_W_per_m),
  ]);
  return found({ field: law.field, rises: Object.fromEntries(rises) as Rises }, law.notes);
}

/**
 * Heat of the section by the two-dimensional field, each temperature with its band: the watts over the tolerances of the
 * circuit, and every doubt of the section. A careful answer is solved at the watts of the job and confirmed by a finer
 * mesh; a quick one is carried there from the nominal watts of the strip, and its band is wider by what that may miss.
 * Refuses a section that cannot be, or that does not settle. Check: `tests/sizing/heat-band.test.ts`.
 */
export function heatAnswer(question: HeatQuestion): Outcome<HeatAnswer, HeatIssue> {
  const isCareful = question.law.accuracy === 'careful';
  const solved = isCareful ? solvedAt(question) : carriedTo(question);
  if (!solved.ok) return solved;
  const { field, rises } = solved.value;
  const temperatures = rows(question, solved.value);
  const sizes = sizesOf(question);
  const answer: HeatAnswer = {
    ...sizes,
    method: `two-dimensional field of the section, ${isCareful ? 'confirmed by a finer mesh' : 'not yet confirmed by a finer mesh'}`,
    validity,
    unknown: question.unknown,
    temperatures,
    life: lifeAnswer(question.job.strip.lifeTests, temperatures, question.unknown),
    paths: pathsOf(field, sizes.heat_W_per_m),
    balance: field.balance,
    upperEnd_K: rises.stratification!,
    profile: profileOf(solved.value, question.law),
    field: isCareful ? pictureOf(field) : null,
  };
  return found(answer, solved.notes);
}
