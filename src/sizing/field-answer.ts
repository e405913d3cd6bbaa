import type { HeatAnswer } from '../answer/sizing.ts';
import { freezing_K } from '../constants.ts';
import { type SectionBand, temperatureBand } from '../heat/band.ts';
import type { HeatIssue } from '../heat/issues.ts';
import type { LimitedPlace } from '../heat/limits.ts';
import { limitedTemperature_degC } from '../heat/questions.ts';
import type { SectionTemperatures, Spot } from '../heat/section-answers.ts';
import { type SectionField, solveSectionField } from '../heat/section-field.ts';
import { found, type Outcome } from '../outcome.ts';
import { commonHeat, type HeatQuestion } from './heat-answer.ts';
import { lampRise_K } from './heat-loads.ts';
import { heatPlaces, temperatureRow } from './heat-places.ts';
import { lifeAnswer } from './life-answer.ts';

interface Bounds {
  readonly low_K: number;
  readonly high_K: number;
}

const spotOf: Readonly<Record<LimitedPlace, (t: SectionTemperatures) => Spot | null>> = {
  solderPoint: (t) => t.strip.peak,
  tape: (t) => t.strip.peak,
  timber: (t) => t.hottestTimber,
  glueLine: (t) => t.glueLine,
  cable: (t) => t.cable,
  roomFace: (t) => t.roomFace,
  sheet: (t) => t.sheet,
};

const boundsOf: Readonly<Record<LimitedPlace, (band: SectionBand) => Bounds | null>> = {
  solderPoint: (band) => band.solderPoint,
  tape: (band) => band.stripPeak,
  timber: (band) => band.hottestTimber,
  glueLine: (band) => band.glueLine,
  cable: (band) => band.cable,
  roomFace: (band) => band.roomFace,
  sheet: (band) => band.sheet,
};

const mm = (m: number): number => 1000 * m;

/** One row for each place there is, the allowance for the upper end included in value and band alike. */
function rows(question: HeatQuestion, field: SectionField, band: SectionBand): HeatAnswer['temperatures'] {
  return (Object.keys(heatPlaces) as LimitedPlace[]).flatMap((place) => {
    const value_degC = limitedTemperature_degC(place, field);
    const bounds = boundsOf[place](band);
    const spot = spotOf[place](field.temperatures);
    if (value_degC === null || bounds === null || spot === null) return [];
    const withUpperEnd = (kelvin: number): number => kelvin + field.upperEnd_K - freezing_K;
    const row = {
      place,
      value_degC,
      low_degC: Math.min(value_degC, withUpperEnd(bounds.low_K)),
      high_degC: Math.max(value_degC, withUpperEnd(bounds.high_K)),
      x_mm: mm(spot.x_m),
      y_mm: mm(spot.y_m),
    };
    return [temperatureRow(row, question.strip)];
  });
}

const pathNames = {
  front: 'through the front to the room',
  jambs: 'through the jambs of the slot',
  sheet: 'through the slot cover',
  openSlotRadiation: 'radiated out of the open slot',
  airExchange: 'with air through the slot',
  behind: 'through the backing',
} as const;

function pathsOf(field: SectionField): HeatAnswer['paths'] {
  return Object.entries(pathNames)
    .map(([key, name]) => ({ name, watts_per_m: field.watts_W_per_m[key as keyof typeof pathNames] }))
    .filter((path) => path.watts_per_m !== 0);
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
  'For upright slots. Readings of this model differ by 1 to 4 K and a real cavity by several; the band covers gap correlation, emissivity and contact.';

/**
 * Heat of the section by the two-dimensional field, each temperature with the band of eight corners. Refuses a
 * section that cannot be, or that does not settle.
 */
export function heatByField(question: HeatQuestion): Outcome<HeatAnswer, HeatIssue> {
  const { section, loads, strip } = question;
  const request = { lampRise_K: lampRise_K(strip, loads) };
  const field = solveSectionField(section, loads, request);
  if (!field.ok) return field;
  const band = temperatureBand(section, loads, request);
  if (!band.ok) return band;
  const temperatures = rows(question, field.value, band.value);
  const answer: HeatAnswer = {
    ...commonHeat(question),
    method: 'two-dimensional field of the section',
    validity,
    temperatures,
    life: lifeAnswer(question.job.strip.lifeTests, temperatures),
    paths: pathsOf(field.value),
    balance: field.value.balance,
    upperEnd_K: field.value.upperEnd_K,
    field: pictureOf(field.value),
  };
  return found(answer, field.notes);
}
