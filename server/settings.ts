import { availableParallelism } from 'node:os';
import { resolve } from 'node:path';
import { found, type Issue, type Outcome, refused } from '../src/outcome.ts';

/** Where the service listens and where its folders are. */
export interface Settings {
  readonly host: string;
  readonly port: number;
  readonly jobsFolder: string;
  readonly pageFolder: string;
  readonly threadCount: number;
}

/** Why the service cannot start as it was told to. */
export type SettingsIssue = Issue & { readonly code: 'port' };

/**
 * Reads the environment: `SLOTWATT_HOST` (127.0.0.1), `PORT` (4747), `SLOTWATT_JOBS` (./jobs) and `SLOTWATT_PAGE`
 * (./build/web). Refuses a port that is not a whole number from 0 to 65535.
 */
export function readSettings(env: NodeJS.ProcessEnv): Outcome<Settings, SettingsIssue> {
  const port = env.PORT ?? '4747';
  if (!/^\d{1,5}$/.test(port) || Number(port) > 65535) {
    const sentence = `PORT must be a whole number from 0 to 65535, not "${port}": try PORT=4747.`;
    return refused({ code: 'port', place: {}, quantities: {}, sentence });
  }
  return found({
    host: env.SLOTWATT_HOST ?? '127.0.0.1',
    port: Number(port),
    jobsFolder: resolve(env.SLOTWATT_JOBS ?? 'jobs'),
    pageFolder: resolve(env.SLOTWATT_PAGE ?? 'build/web'),
    threadCount: Math.max(2, availableParallelism() - 1),
  });
}
