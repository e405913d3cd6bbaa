import { describe, expect, it } from 'vitest';
import { demoJobs } from '../../src/job/demo-jobs.ts';
import { prepare } from '../../src/sizing/prepare.ts';
import { settle } from '../../src/sizing/settle.ts';
import { judged, sizeAt } from '../../src/sizing/size-job.ts';

describe('judging without papers', () => {
  it.each(['quick', 'careful'] as const)('finds what sizing finds, %s', (accuracy) => {
    const { job } = demoJobs[0]!;
    const prepared = prepare(job, accuracy);
    const sizing = sizeAt(job, accuracy);
    if (!prepared.ok || !sizing.ok) throw new Error('refused');
    const settled = settle(prepared.value);
    if (!settled.ok) throw new Error('refused');
    const answer = judged(prepared.value, settled.value);
    if (!answer.ok) throw new Error('refused');
    expect(answer.value.findings).toEqual(sizing.value.findings);
    expect(answer.value.sized.cables).toEqual(sizing.value.cables);
  });
});
