import { type HandSolution, solveHandSection } from '../heat/hand-method.ts';
import type { HeatIssue } from '../heat/issues.ts';
import {
  type SectionDescription,
  type SectionLoads,
  totalHeat_W_per_m,
} from '../heat/section-description.ts';
import type { Job } from '../job/job.ts';
import type { StripData } from '../job/strip.ts';
import { found, type Outcome } from '../outcome.ts';
import type { HeatAnswer, LightAnswer } from '../sizing.ts';
import { heatLimits } from './interim.ts';
import { freezing_K } from './section-of-job.ts';

/** Lumens per optical watt of phosphor white: CIE LED illuminants B2 to B4, 314 to 319 (secondary). */
const radiation_lm_per_W = 315;

/**
 * Band of a rise above the room by the hand method: correlations differ by 10 to 15 %, and the method leaves out
 * spreading along the boards and the slot itself (judgement).
 */
const handSpread = 0.25;

/**
 * Heat of a strip that draws `electrical` watts per metre: what is not light stays in the strip, light that does
 * not leave the slot warms the face it falls on. `heat = P * (1 - (lm/W)/315)`.
 */
export function loadsOfStrip(electrical_W_per_m: number, strip: StripData, light: LightAnswer): SectionLoads {
  const lumens = strip.channels.reduce((sum, channel) => sum + channel.lumens_per_m, 0);
  const watts = strip.channels.reduce((sum, channel) => sum + channel.watts_per_m, 0);
  const optical = Math.min(1, lumens / watts / radiation_lm_per_W) * electrical_W_per_m;
  const share = (...faces: string[]): number =>
    optical * faces.reduce((sum, face) => sum + (light.absorbed[face] ?? 0), 0);
  return {
    strip_W_per_m: electrical_W_per_m - optical,
    facesAbsorbed_W_per_m: {
      backing: share('back'),
      sides: share('sides'),
      front: share('front', 'reveal'),
      sheet: share('sheet'),
    },
  };
}

/** What the section of a job is asked for heat with. */
export interface HeatQuestion {
  readonly job: Job;
  readonly strip: StripData;
  readonly section: SectionDescription;
  readonly loads: SectionLoads;
  readonly electrical_W_per_m: number;
}

type Temperature = HeatAnswer['temperatures'][number];

function temperatureOf(
  item: Pick<Temperature, 'id' | 'name' | 'limit_degC'> & { readonly kelvin: number },
  room_K: number,
): Temperature {
  const { kelvin, ...rest } = item;
  const spread_K = handSpread * (kelvin - room_K);
  const value_degC = kelvin - freezing_K;
  return { ...rest, value_degC, low_degC: value_degC - spread_K, high_degC: value_degC + spread_K };
}

/** Rise of one lamp's solder point over the strip: its share of the heat through its own few square millimetres. */
export function lampRise_K(question: HeatQuestion): number {
  const { strip, loads } = question;
  return (strip.solderRise_K_per_W * loads.strip_W_per_m) / strip.lampsPerMetre;
}

function handTemperatures(question: HeatQuestion, hand: HandSolution): Temperature[] {
  const { strip, section } = question;
  const timber_K = Math.max(hand.backingFace_K + hand.spreading_K, hand.frontInnerFace_K);
  const items = [
    {
      id: 'solder',
      name: 'Strip at the solder point',
      kelvin: hand.strip_K + lampRise_K(question),
      limit_degC: strip.limit_degC,
    },
    { id: 'timber', name: 'Hottest timber', kelvin: timber_K, limit_degC: heatLimits.timber_degC },
    { id: 'glue', name: 'Glue line', kelvin: hand.glueLine_K, limit_degC: heatLimits.glue_degC },
    {
      id: 'face',
      name: 'Front within reach',
      kelvin: hand.roomFace_K,
      limit_degC: heatLimits.touchedWood_degC,
    },
  ];
  return items.map((item) => temperatureOf(item, section.room_K));
}

/** Depth of the build-up, layer by layer from the wall. */
export function layersOf(job: Job): HeatAnswer['layers'] {
  const { section } = job;
  return [
    { name: `Backing, ${section.backing.material}`, thickness_mm: section.backing.thickness_mm },
    { name: 'Cavity with the strip', thickness_mm: section.cavity_mm },
    { name: `Front, ${section.front.material}`, thickness_mm: section.front.thickness_mm },
  ];
}

function handAnswer(question: HeatQuestion, hand: HandSolution): HeatAnswer {
  const layers = layersOf(question.job);
  return {
    method: 'hand method: resistances in series, one dimension',
    validity: hand.validity,
    strip_W_per_m: question.electrical_W_per_m,
    heat_W_per_m: totalHeat_W_per_m(question.loads),
    temperatures: handTemperatures(question, hand),
    paths: [
      { name: 'through the front to the room', watts_per_m: hand.toRoom_W_per_m },
      { name: 'through the backing', watts_per_m: hand.toBehind_W_per_m },
    ],
    balance: hand.balance,
    layers,
    depth_mm: layers.reduce((sum, layer) => sum + layer.thickness_mm, 0),
    available_mm: question.job.section.available_mm,
  };
}

/** Strip temperature by the hand method, degC: what the circuit is warmed with. */
export function stripTemperature_degC(
  section: SectionDescription,
  loads: SectionLoads,
): Outcome<number, HeatIssue> {
  const hand = solveHandSection(section, loads);
  return hand.ok ? found(hand.value.strip_K - freezing_K) : hand;
}

/** Heat of the section by the one-dimensional hand method, and honest about being that. */
export function heatByHand(question: HeatQuestion): Outcome<HeatAnswer, HeatIssue> {
  const hand = solveHandSection(question.section, question.loads);
  return hand.ok ? found(handAnswer(question, hand.value), hand.notes) : hand;
}
