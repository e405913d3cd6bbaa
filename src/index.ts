/** The engine's public face: everything the service and the tests of the whole may use. */

export { askJobCircuit, askJobHeat, askJobLight } from './ask-job.ts';
export { askedCircuit, askedHeat, askedLight, askedStrip, judgedReadings } from './asked.ts';
export { cableCatalogue } from './job/cable-catalogue.ts';
export { demoJobs } from './job/demo-jobs.ts';
export { driverCatalogue } from './job/driver-catalogue.ts';
export { type Job, job, jobJsonSchema } from './job/job.ts';
export { newJob } from './job/new-job.ts';
export { readJob, readJobText } from './job/read-job.ts';
export { boards, finishes, slotCovers } from './job/section.ts';
export { stripCatalogue } from './job/strip-catalogue.ts';
export { askStrip } from './joining/ask-strip.ts';
export { judgeReadings } from './judge-readings.ts';
export type { Issue, Outcome } from './outcome.ts';
export { engineVersion, sizeJob, sizeJobCarefully } from './size-job.ts';
export { type Sizing, sizing } from './sizing.ts';
