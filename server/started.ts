import type { Callers } from './callers.ts';

const onNetwork =
  'Other computers on the network can reach it. Whoever opens that address, token included, can read and change every job; the way to it is not encrypted.';

/** What is said once the service listens: where it is and keeps its jobs, and what listening to a network means. */
export function startedSentences(address: string, jobsFolder: string, { token }: Callers): string[] {
  const at = token === null ? address : `${address}/?token=${token}`;
  const started = `Slotwatt is at ${at} and keeps its jobs in ${jobsFolder}. Stop it with Ctrl+C.`;
  return token === null ? [started] : [started, onNetwork];
}
