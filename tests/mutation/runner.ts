import { setMaxListeners } from 'node:events';
import { type RunnerTestCase, type RunnerTestFile, TestRunner } from 'vitest';
import { forgetAll } from './forgetful.ts';
import { read, write } from './journal.ts';

/** What the planted code and this runner tell one another. */
interface Switches {
  activeMutant?: string | undefined;
  currentTestId?: string | undefined;
  hitCount?: number | undefined;
  hitLimit?: number | undefined;
  mutantCoverage?: { static: Record<string, number>; perTest: Record<string, Record<string, number>> };
}

/** A test listens for its end each time it is asked. */
setMaxListeners(0);

const shared = globalThis as { __stryker__?: Switches };
shared.__stryker__ ??= {};
const switches = shared.__stryker__;
const journal = process.env.SLOTWATT_MUTATION_JOURNAL!;

async function holds(test: RunnerTestCase): Promise<boolean> {
  forgetAll();
  try {
    await TestRunner.getTestFn(test)();
    return true;
  } catch {
    return false;
  }
}

/** A loop that goes round a hundred times as often as without the change is taken for an endless one. */
const endless = 100;

const nameOf = (test: RunnerTestCase): string => `${test.file.name} ${test.id}: ${test.name}`;

/**
 * Runs each test as it is, then once for every change it goes through that nothing has noticed yet, all in one process:
 * nothing is loaded anew. What the engine remembers is forgotten before each.
 */
export default class MutationRunner extends TestRunner {
  readonly #before = read(journal);

  override onCollectStart(file: RunnerTestFile): void {
    super.onCollectStart(file);
    write(journal, { process: process.pid });
    switches.currentTestId = undefined;
  }

  async runTask(test: RunnerTestCase): Promise<void> {
    if (this.#before.done.has(nameOf(test))) return;
    const hits = await this.#covering(test);
    const isSteady = await holds(test);
    if (isSteady) for (const [id, count] of Object.entries(hits)) await this.#tryChange(test, id, count);
    write(journal, { done: nameOf(test), steady: isSteady && (await holds(test)) });
  }

  /** Changes the test goes through, each with how often. */
  async #covering(test: RunnerTestCase): Promise<Record<string, number>> {
    switches.currentTestId = test.id;
    await holds(test);
    switches.currentTestId = 'counted already';
    const hits = switches.mutantCoverage?.perTest[test.id] ?? {};
    write(journal, { covered: Object.keys(hits) });
    return hits;
  }

  async #tryChange(test: RunnerTestCase, id: string, count: number): Promise<void> {
    if (this.#before.killed.has(id)) return;
    write(journal, { tried: id });
    Object.assign(switches, { activeMutant: id, hitCount: 0, hitLimit: count * endless });
    const noticed = !(await holds(test));
    Object.assign(switches, { activeMutant: undefined, hitCount: undefined, hitLimit: undefined });
    write(journal, { noticed });
    if (noticed) this.#before.killed.add(id);
  }

  override onAfterRunFiles(): void {
    super.onAfterRunFiles();
    write(journal, { loaded: Object.keys(switches.mutantCoverage?.static ?? {}) });
  }
}
