import { describe, expect, it } from 'vitest';
import { solveCircuit } from '../../src/circuit/solve-circuit.ts';
import { togetherWith } from '../../src/circuit/together.ts';
import { demoJobs, type Job } from '../../src/index.ts';
import { settledSizing } from '../../src/sizing/size-job.ts';

const layouts = ['radial', 'trunk', 'ring'] as const;

function wall(layout: (typeof layouts)[number]): Job {
  const { job } = demoJobs.at(-1)!;
  return { ...job, cables: { ...job.cables, layout } };
}

describe('what hangs together with a run', () => {
  it.each(layouts)('solves as it does in the whole, %s', (layout) => {
    const answer = settledSizing(wall(layout), 'quick');
    if (!answer.ok) throw new Error(answer.issues[0]!.sentence);
    const { description, solution } = answer.value.settled;
    const whole = new Map(solution.runs.map((run) => [run.id, run]));
    const run = description.runs[Math.floor(description.runs.length / 2)]!.id;
    const part = togetherWith(description, run);
    expect(part.sources).toHaveLength(1);
    expect(part.runs.length).toBeLessThan(description.runs.length);
    const solved = solveCircuit(part);
    if (!solved.ok) throw new Error(solved.issues[0]!.sentence);
    expect(solved.value.runs.map(({ id }) => id)).toContain(run);
    for (const { id, channels } of solved.value.runs)
      expect(channels[0]!.lowest_V).toBeCloseTo(whole.get(id)!.channels[0]!.lowest_V, 9);
  });
});
