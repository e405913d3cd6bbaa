import type { Schedule } from '../answer/schedules.ts';
import { barsSchedule } from './bars-schedule.ts';
import { bill } from './bill.ts';
import { cablesSchedule } from './cables-schedule.ts';
import { cuttingList } from './cutting-list.ts';
import { dimmingSchedule } from './dimming-schedule.ts';
import { driversSchedule } from './drivers-schedule.ts';
import { feedPointsSchedule } from './feed-points-schedule.ts';
import type { HandOverInput } from './input.ts';
import { panelsSchedule } from './panels-schedule.ts';
import { protectionSchedule } from './protection-schedule.ts';
import { reelsSchedule } from './reels-schedule.ts';
import { testSheet } from './test-sheet.ts';

/** Every schedule of the hand-over, in the order of the papers: rows only, numbers unrounded. */
export function schedulesOf(input: HandOverInput): Schedule[] {
  return [
    driversSchedule(input),
    ...dimmingSchedule(input),
    cablesSchedule(input),
    feedPointsSchedule(input),
    protectionSchedule(input),
    cuttingList(input),
    reelsSchedule(input),
    ...panelsSchedule(input),
    ...barsSchedule(input),
    bill(input),
    testSheet(input),
  ];
}
