import type { HeatAnswer } from '../answer/sizing.ts';
import { freezing_K } from '../constants.ts';
import { type HandSolution, solveHandSection } from '../heat/hand-method.ts';
import type { HeatIssue } from '../heat/issues.ts';
import type { LimitedPlace } from '../heat/limits.ts';
import {
  type SectionDescription,
  type SectionLoads,
  totalHeat_W_per_m,
} from '../heat/section-description.ts';
import type { Job } from '../job/job.ts';
import type { StripData } from '../job/strip.ts';
import { found, type Outcome } from '../outcome.ts';
import { lampRise_K } from './heat-loads.ts';
import { type PlacedTemperature, temperatureRow } from './heat-places.ts';
import { lifeAnswer } from './life-answer.ts';

/** What the section of a job is asked for heat with. */
export interface HeatQuestion {
  readonly job: Job;
  readonly strip: StripData;
  readonly section: SectionDescription;
  readonly loads: SectionLoads;
  readonly electrical_W_per_m: number;
}

/**
 * Band of a rise above the room by the hand method: correlations differ by 10 to 15 %, and the method leaves out
 * spreading along the boards and the slot itself (judgement).
 */
const handSpread = 0.25;

/** What both methods of heat answer alike. */
export function commonHeat({ loads, electrical_W_per_m }: HeatQuestion) {
  return { strip_W_per_m: electrical_W_per_m, heat_W_per_m: totalHeat_W_per_m(loads) };
}

function handTemperatures(question: HeatQuestion, hand: HandSolution): PlacedTemperature[] {
  const { strip, section, loads } = question;
  const kelvins: Partial<Record<LimitedPlace, number>> = {
    solderPoint: hand.strip_K + lampRise_K(strip, loads),
    tape: hand.strip_K,
    timber: Math.max(hand.backingFace_K + hand.spreading_K, hand.frontInnerFace_K),
    glueLine: hand.glueLine_K,
    roomFace: hand.roomFace_K,
  };
  return Object.entries(kelvins).map(([place, kelvin]) => {
    const spread_K = handSpread * Math.abs(kelvin - section.room_K);
    const value_degC = kelvin - freezing_K;
    return {
      place: place as LimitedPlace,
      ...{ value_degC, low_degC: value_degC - spread_K, high_degC: value_degC + spread_K },
      ...{ x_mm: null, y_mm: null },
    };
  });
}

/** Heat of the section by the one-dimensional hand method, and honest about being that. */
export function heatByHand(question: HeatQuestion): Outcome<HeatAnswer, HeatIssue> {
  const hand = solveHandSection(question.section, question.loads);
  if (!hand.ok) return hand;
  const temperatures = handTemperatures(question, hand.value).map((t) => temperatureRow(t, question.strip));
  return found({
    ...commonHeat(question),
    method: 'hand method: resistances in series, one dimension',
    validity: hand.value.validity,
    temperatures,
    life: lifeAnswer(question.job.strip.lifeTests, temperatures),
    paths: [
      { name: 'through the front to the room', watts_per_m: hand.value.toRoom_W_per_m },
      { name: 'through the backing', watts_per_m: hand.value.toBehind_W_per_m },
    ],
    balance: hand.value.balance,
    upperEnd_K: 0,
    field: null,
  });
}
