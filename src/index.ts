/** The engine's public face: everything the service and the tests of the whole may use. */

export {
  askedCircuit,
  askedDrivers,
  askedHeat,
  askedLayouts,
  askedLight,
  askedStrip,
  judgedReadings,
} from './answer/asked.ts';
export { type Sizing, sizing } from './answer/sizing.ts';
export {
  type Made,
  type Piece,
  type RowGroup,
  rowGroups,
  type ShownSchedule,
  saidByAll,
} from './hand-over/row-groups.ts';
export { type TestLine, testLines } from './hand-over/test-lines.ts';
export { askJobCircuit, askJobHeat, askJobLight } from './inverse/ask-job.ts';
export { askJobDrivers } from './inverse/drivers.ts';
export { askJobLayouts } from './inverse/layouts.ts';
export { askStrip } from './inverse/strip.ts';
export { cableCatalogue } from './job/cable-catalogue.ts';
export { demoJobs } from './job/demo-jobs.ts';
export { dimmerCatalogue } from './job/dimmer-catalogue.ts';
export { driverCatalogue } from './job/driver-catalogue.ts';
export { type Job, job, jobJsonSchema } from './job/job.ts';
export { newJob } from './job/new-job.ts';
export { type Openable, openByDefault } from './job/open-choices.ts';
export { profileCatalogue, profileCoverCatalogue } from './job/profile-catalogue.ts';
export { readJob, readJobText } from './job/read-job.ts';
export { boards, finishes, slotCovers } from './job/section.ts';
export { stripCatalogue } from './job/strip-catalogue.ts';
export type { Issue, Outcome } from './outcome.ts';
export { propose } from './proposing/propose.ts';
export { judgeReadings } from './readings/judge-readings.ts';
export { sizeAt, sizeJob, sizeJobCarefully } from './sizing/size-job.ts';
export { engineVersion } from './version.ts';
export { levelsOf } from './words.ts';
