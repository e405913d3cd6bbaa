import { randomBytes } from 'node:crypto';
import { isIP } from 'node:net';
import { availableParallelism, hostname } from 'node:os';
import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { found, type Issue, type Outcome, refused } from '../src/outcome.ts';
import { type Callers, ownComputer } from './callers.ts';

/** The built page lies beside the built service; beside the sources it is in their build. */
const builtPage = new URL(import.meta.url.endsWith('.ts') ? '../build/web' : '../web', import.meta.url);

/** Where the service listens and where its folders are. */
export interface Settings {
  readonly host: string;
  readonly port: number;
  readonly jobsFolder: string;
  readonly pageFolder: string;
  readonly threadCount: number;
  readonly callers: Callers;
}

/** Why the service cannot start as it was told to. */
export type SettingsIssue = Issue & { readonly code: 'port' };

/** A variable that is set and not empty. */
const given = (text: string | undefined): string | undefined => (text?.trim() ? text : undefined);

const isLoopback = (host: string): boolean =>
  host === 'localhost' || host === '::1' || (isIP(host) === 4 && host.startsWith('127.'));

/** Off this computer the service goes by more names and asks for a token. */
function callersOf(host: string, env: NodeJS.ProcessEnv): Callers {
  if (isLoopback(host)) return ownComputer;
  const named = (given(env.SLOTWATT_NAMES) ?? '').split(',').map((name) => name.trim().toLowerCase());
  const own = hostname().toLowerCase();
  const names = [
    'localhost',
    own,
    `${own}.local`,
    host.toLowerCase(),
    ...named.filter((name) => name !== ''),
  ];
  return { names, token: given(env.SLOTWATT_TOKEN) ?? randomBytes(18).toString('base64url') };
}

/**
 * Reads the environment: `SLOTWATT_HOST` (127.0.0.1), `PORT` (4747), `SLOTWATT_JOBS` (./jobs) and `SLOTWATT_PAGE` (the
 * page as it was built beside the service, wherever it is started from); where others on a network may call, `SLOTWATT_NAMES` (more names of this computer, with commas) and
 * `SLOTWATT_TOKEN` (what callers show; else a new one each start). What is set and empty counts as not set. Refuses
 * a port that is not a whole number from 0 to 65535.
 */
export function readSettings(env: NodeJS.ProcessEnv): Outcome<Settings, SettingsIssue> {
  const port = given(env.PORT) ?? '4747';
  if (!/^\d{1,5}$/.test(port) || Number(port) > 65535) {
    const sentence = `PORT must be a whole number from 0 to 65535, not "${port}": try PORT=4747.`;
    return refused({ code: 'port', place: {}, quantities: {}, sentence });
  }
  const host = given(env.SLOTWATT_HOST) ?? '127.0.0.1';
  return found({
    host,
    port: Number(port),
    jobsFolder: resolve(given(env.SLOTWATT_JOBS) ?? 'jobs'),
    pageFolder: resolve(given(env.SLOTWATT_PAGE) ?? fileURLToPath(builtPage)),
    threadCount: Math.max(2, availableParallelism() - 1),
    callers: callersOf(host, env),
  });
}
