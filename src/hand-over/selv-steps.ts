import type { Condition } from '../answer/sizing.ts';

/** A step of inspection and testing that has no single predicted figure. */
export interface SelvStep {
  readonly id: string;
  readonly step: string;
}

/**
 * Inspection and testing of an SELV installation, in order: IEC 60364-6:2016 (inspection 6.4.2, tests 6.4.3;
 * insulation voltages and the 0.5 Mohm limit of table 6.1 secondary, the 1 Mohm limit from memory) with the
 * trade's own checks of lit joinery at the end. The electrician's edition and local rules go first.
 */
export const selvSteps: readonly SelvStep[] = [
  {
    id: 'V1',
    step: 'Dead: inspect. Source marked SELV, luminaires Class III, no earth on the strip side, SELV cables apart from mains, conductor areas and fuses as scheduled, supports, access to drivers and connections, labels, air round drivers.',
  },
  {
    id: 'V2',
    step: 'Dead: continuity. Each live conductor end to end; the loops are in the rows below.',
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
    step: 'Dead: polarity. Plus and minus identified at every feed point and every strip end.',
  },
  {
    id: 'V6',
    step: 'Live: volts at each output before and after the strips are connected, and volts and amps in the rows below.',
  },
  {
    id: 'V7',
    step: 'Live: function. Every slot lights, no visible step at joints, dimming over its range, each zone by its own control.',
  },
  {
    id: 'V8',
    step: 'Live: after one hour at the brightest the dimmer allows, driver case at its marked point below tc, no smell, nothing hot to the hand.',
  },
];

/** Volts and amps of a job whose heat alone goes by the limit are those of full; a short reading does not warm the wall. */
const readAt: Readonly<Record<Condition['holds'], string>> = {
  heat: 'Read the volts and amps of the rows below before it is set, at full, for no longer than the reading takes.',
  everything: 'Read the volts and amps of the rows below with it set, turned up as far as it goes.',
};

const limitStep = ({ sentence, holds }: Condition, i: number): SelvStep => ({
  id: `L${i + 1}`,
  step: `Live: limit of the dimmer. ${sentence} ${readAt[holds]}`,
});

/** The steps in order, with what the job rests on shown to be so before anything burns for long. */
export function selvStepsUnder(conditions: readonly Condition[]): SelvStep[] {
  const measured = selvSteps.findIndex(({ id }) => id === 'V6') + 1;
  return [...selvSteps.slice(0, measured), ...conditions.map(limitStep), ...selvSteps.slice(measured)];
}
