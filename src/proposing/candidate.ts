import type { Job } from '../job/job.ts';
import type { CablingChoice, Choices, DriverChoice } from './choices.ts';
import type { StandingSection } from './section-stage.ts';

/** A whole design: a section, and how it is fed, wired and driven. */
export interface Candidate {
  readonly at: StandingSection;
  readonly drivers: DriverChoice;
  readonly feeds: Choices['feeds'][number];
  readonly layout: Job['cables']['layout'];
  readonly cabling: CablingChoice;
  readonly fuses: Job['cables']['fuses'];
}

/** A candidate as a job. */
export function jobOf({ at, drivers, feeds, layout, cabling, fuses }: Candidate): Job {
  const { job } = at;
  const { output_V: _volts, ...chosen } = drivers;
  const { area_mm2: _area, trunk_mm2: _trunk, ...cables } = cabling;
  return {
    ...job,
    feeds: { ...job.feeds, ...feeds, cutLines: [...feeds.cutLines], exceptions: [...feeds.exceptions] },
    cables: { ...job.cables, ...cables, layout, fuses },
    drivers: { ...job.drivers, ...chosen, also: [...chosen.also] },
  };
}

/** Whether a job's feeds are one at an end of each run, which is what run to run goes with. */
export const isFedAtEnd = ({ arrangement, exceptions }: Choices['feeds'][number]): boolean =>
  [{ arrangement }, ...exceptions].every(({ arrangement: kind }) => kind === 'start' || kind === 'finish');
