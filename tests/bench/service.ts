import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

const main = fileURLToPath(new URL('../../server/main.js', import.meta.url));

/** The built service in a process of its own. */
export interface Running {
  readonly origin: string;
  readonly pid: number;
  readonly stop: () => Promise<void>;
}

/** Where it says that it is; a page that was not built is told of before. */
async function addressOf(child: ChildProcess): Promise<string> {
  for await (const said of createInterface({ input: child.stdout! })) {
    const [origin] = /http:\/\/127\.0\.0\.1:\d+/.exec(said) ?? [];
    if (origin) return origin;
  }
  throw new Error('the service ended before it said where it is');
}

/** Starts the built service as `npm start` does, where wanted under a limit of open files. */
export async function startService(
  jobsFolder: string,
  { fileHandles, pageFolder = import.meta.dirname }: { fileHandles?: number; pageFolder?: string } = {},
): Promise<Running> {
  const limit = fileHandles === undefined ? '' : `ulimit -n ${fileHandles}; `;
  const child = spawn('sh', ['-c', `${limit}exec "${process.execPath}" "${main}"`], {
    env: { ...process.env, PORT: '0', SLOTWATT_JOBS: jobsFolder, SLOTWATT_PAGE: pageFolder },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const origin = await addressOf(child);
  child.stdout!.resume();
  return {
    origin,
    pid: child.pid!,
    stop: async () => {
      child.kill('SIGTERM');
      await once(child, 'close');
    },
  };
}
