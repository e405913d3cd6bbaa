import { resolve } from 'node:path';
import { startVitest } from 'vitest/node';
import { hang_ms } from '../hang.ts';
import { begin, read, type Told, write } from './journal.ts';
import type { Planted } from './plant.ts';

const journal = resolve(`build/mutation/${process.pid}.jsonl`);
const remembering = resolve('src/numeric/remembered.ts');
const forgetful = resolve('tests/mutation/forgetful.ts');

/** Gives planted code for the code of a file, and what can be forgotten for what is remembered. */
const planting = ({ code }: Planted) => ({
  name: 'planted',
  enforce: 'pre' as const,
  load: (file: string): string | null =>
    code.get(file) ?? (file === remembering ? `export * from ${JSON.stringify(forgetful)};` : null),
});

async function runTests(planted: Planted, tests: readonly string[]): Promise<void> {
  const vitest = await startVitest(
    'test',
    [],
    {
      ...{ config: false, watch: false, reporters: [{}], include: [...tests], testTimeout: hang_ms },
      ...{ runner: resolve('tests/mutation/runner.ts'), pool: 'forks', isolate: false, maxWorkers: 1 },
    },
    { plugins: [planting(planted)] },
  );
  await vitest.close();
}

/** A change that one test has not come through in so long ends in a loop. */
const patience_ms = 60_000;

/** Ends the process of the tests where it hangs in a change. */
function watch(): NodeJS.Timeout {
  let last: { trying: string | null; done: number } | null = null;
  return setInterval(() => {
    const told = read(journal);
    const now = { trying: told.trying, done: told.done.size };
    if (now.trying !== null && last?.trying === now.trying && last.done === now.done)
      process.kill(told.process!, 'SIGKILL');
    last = now;
  }, patience_ms);
}

async function runThrough(planted: Planted, tests: readonly string[]): Promise<void> {
  const watching = watch();
  await runTests(planted, tests).finally(() => clearInterval(watching));
  if (read(journal).trying === null) return;
  write(journal, { noticed: true });
  await runThrough(planted, tests);
}

/** Tries planted changes against tests: what ends their process or makes it hang is noticed, and they go on. */
export async function tryChanges(planted: Planted, tests: readonly string[]): Promise<Told> {
  process.env.SLOTWATT_MUTATION_JOURNAL = journal;
  begin(journal);
  await runThrough(planted, tests);
  return read(journal);
}
