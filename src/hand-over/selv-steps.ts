import type { Condition } from '../answer/conditions.ts';

/** A step of inspection and testing that has no single predicted figure. */
export interface SelvStep {
  readonly id: string;
  readonly step: string;
}

/** Amps below this are lost in the last digits of a common clamp meter for DC (common practice). */
export const clampFrom_A = 0.5;

/** At which level the live readings hold: everything fully on, or what a steady limit lets through. */
const levels = {
  full: 'all lit, dimmers at 100 %, or bridged, while it is measured and no longer',
  working: 'all lit, dimmers at the level they are limited to',
  mix: 'the channels of most watts turned up one after the other to 100 % as far as the limit of the mix allows, the others off',
} as const;

/**
 * Inspection and testing of an SELV installation, in order: IEC 60364-6:2016 (inspection 6.4.2, tests 6.4.3;
 * insulation voltages and the 0.5 Mohm limit of table 6.1 secondary, the 1 Mohm limit from memory) with the
 * trade's own checks of lit joinery at the end. A fuse is any device on a way of a block; an electronic channel is out when it is
 * switched off. What holds for every row below is said here once. The electrician's
 * edition and local rules go first.
 *
 * @param level the level the live readings are predicted at
 */
function selvSteps(level: keyof typeof levels): readonly SelvStep[] {
  return [
    {
      id: 'V1',
      step: 'Dead: inspect. Source marked SELV, luminaires Class III, no earth on the strip side, SELV cables apart from mains, conductor areas, marks of cores and fuses as scheduled, supports, access to drivers and connections, labels, air round drivers.',
    },
    {
      id: 'V2',
      step: 'Dead, mains locked off, every fuse out, every electronic channel off: continuity and loops, row by row below. The lead comes off the terminal the row names, at its block or driver; plus and minus are linked where the row says; the loop is measured at the near end of the lead; the link comes OUT and its box is ticked before the next row. A link left in is a short across the output.',
    },
    {
      id: 'V3',
      step: 'Dead: insulation of SELV to other circuits and to earth, 250 V DC, at least 0.5 MΩ. Strips, drivers and dimmers disconnected.',
    },
    {
      id: 'V4',
      step: 'Dead: insulation between SELV and mains conductors, 500 V DC, at least 1 MΩ. Strips, drivers and dimmers disconnected.',
    },
    {
      id: 'V5',
      step: 'Dead: polarity. Plus and minus identified at every feed point and every strip end. Then every box “link out” is ticked, leads are back on their terminals, strips still off, fuses out. Only now may the mains come on.',
    },
    {
      id: 'V6',
      step: 'Live, fuses out: volts at each output without load. Then mains off, fuses in, mains on, dimmers turned fully up: volts without load at the end of each cable, strips still off.',
    },
    {
      id: 'V7',
      step: `Mains off, strips connected, fuses in, mains on, ${levels[level]}: volts in the rows below.`,
    },
    {
      id: 'V8',
      step: `Live, ${levels[level]}: amps where the row says. A clamp meter for DC goes round the one conductor the row names. Below about ${clampFrom_A} A a common clamp does not resolve it: a meter with a fuse of its own goes in series there, with the mains off while it goes in and out.`,
    },
    {
      id: 'V9',
      step: 'Live: function. Every slot lights, no visible step at joints, dimming over its range, each zone by its own control.',
    },
    {
      id: 'V10',
      step: 'Live: after one hour at the brightest the dimmer allows, driver case at its marked point below tc, no smell, nothing hot to the hand.',
    },
  ];
}

/** Volts and amps of a job whose heat alone goes by the limit are those of full; a short reading does not warm the wall. */
const readAt: Readonly<Record<Condition['holds'], string>> = {
  heat: 'The volts and amps of the rows below are read before it is set, at full, for no longer than the reading takes.',
  everything: 'Read the volts and amps of the rows below with it set, turned up as far as it goes.',
};

const limitStep = ({ sentence, holds }: Condition, i: number): SelvStep => ({
  id: `L${i + 1}`,
  step: `Live: limit of the dimmer. ${sentence} ${readAt[holds]}`,
});

/**
 * The steps in order, with what the job rests on shown to be so before anything burns for long: a limit that the
 * readings are predicted under before they are taken, one that only heat goes by after them.
 */
export function selvStepsUnder(
  conditions: readonly Condition[],
  level: keyof typeof levels,
): readonly SelvStep[] {
  const after = { everything: 'V6', heat: 'V8' } as const;
  return selvSteps(level).flatMap((step) => [
    step,
    ...conditions.flatMap((condition, i) =>
      after[condition.holds] === step.id ? [limitStep(condition, i)] : [],
    ),
  ]);
}
