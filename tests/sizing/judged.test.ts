import { describe, expect, it } from 'vitest';
import { demoJobs } from '../../src/job/demo-jobs.ts';
import { prepare } from '../../src/sizing/prepare.ts';
import { settle } from '../../src/sizing/settle.ts';
import { judged, judgedButForHeat, sizeAt } from '../../src/sizing/size-job.ts';

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

  it('but for heat finds all else that sizing finds, and the same figures', () => {
    for (const { job } of demoJobs) {
      const prepared = prepare(job, 'quick');
      const whole = sizeAt(job, 'quick');
      if (!prepared.ok || !whole.ok) throw new Error('refused');
      const settled = settle(prepared.value);
      const answer = settled.ok ? judgedButForHeat(prepared.value, settled.value) : settled;
      if (!answer.ok) throw new Error('refused');
      const { sized, findings } = answer.value;
      const { heat: _band, ...others } = sized;
      expect(others).toMatchObject({ cables: whole.value.cables, drivers: whole.value.drivers });
      const butHeat = (of: typeof findings) => of.filter(({ question }) => question !== 'heat');
      expect(butHeat(findings)).toEqual(butHeat(whole.value.findings));
      expect(butHeat(findings).length).toBeGreaterThan(10);
    }
  });
});
