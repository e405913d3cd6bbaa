/** How a saved file says that it is a job with what belongs to it. */
export const recordFormat = { name: 'slotwatt-record', version: 1 } as const;

/** Name of the file that a pack of papers carries: the job it was made from, to be opened again. */
export const attachedName = 'slotwatt-job.json';
