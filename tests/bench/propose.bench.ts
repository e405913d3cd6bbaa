import { demoJobs, openByDefault, propose } from '../../src/index.ts';

const processor_s = (since: NodeJS.CpuUsage): string => {
  const { user, system } = process.cpuUsage(since);
  return ((user + system) / 1e6).toFixed(1);
};

/** Walls of 6, 28 and 60 slots, and one of three panels. */
const walls = ['window-seat', 'stair-wall', 'foyer-wall', 'landing-wall'];

/**
 * For each wall, in seconds of the processor from cold: until the first design that passes, or at once where the job as it
 * stands does, and the whole answer; designs there are and sized, share ruled out, and what the process holds.
 */
export async function benchPropose(): Promise<void> {
  for (const { id, job } of demoJobs.filter((demo) => walls.includes(demo.id))) {
    globalThis.gc?.();
    const [cpu, clock_ms] = [process.cpuUsage(), performance.now()];
    const going = propose(job, openByDefault(job));
    let first_s: string | undefined;
    for (let step = going.next(); ; step = going.next()) {
      if (!step.done) {
        if (step.value.best) first_s ??= processor_s(cpu);
        continue;
      }
      if (!step.value.ok) throw new Error(step.value.issues[0]!.sentence);
      const { designs, proof } = step.value.value;
      const held_MB = (process.memoryUsage().heapUsed / 1e6).toFixed(0);
      console.log(
        `${id}: first design after ${first_s ?? '-'} s, answer after ${processor_s(cpu)} s of the processor (${((performance.now() - clock_ms) / 1000).toFixed(1)} s by the clock); ${designs.length} designs of ${proof.allowedCount}, ${proof.sizedCount} sized, ${(100 * (1 - proof.sizedCount / proof.allowedCount)).toFixed(2)} % not; ${proof.proved ? 'proved' : 'not proved'}; heap ${held_MB} MB`,
      );
      console.log(`  ${proof.sentence}`);
      break;
    }
  }
}
