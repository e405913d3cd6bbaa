import { describe, expect, it } from 'vitest';
import { newJob, sizeJob } from '../../src/index.ts';

describe('the drop of a ring', () => {
  it('is that to where its volts are lowest, though both its ends are one terminal', () => {
    const base = newJob();
    const outcome = sizeJob({ ...base, cables: { ...base.cables, layout: 'ring' } });
    if (!outcome.ok) throw new Error('the new job is refused');
    const { cables, circuit, set_V } = outcome.value;
    const named = (id: string) => cables.find((cable) => cable.id === id)!;
    // Along the way of each feed the drops of link, ring and branch add up to what its pads lack.
    const along = circuit.runs.flatMap(({ feed_A }) =>
      feed_A.map(({ feedPoint, terminal_V }) => {
        const branch = cables.find(({ kind, serves }) => kind === 'branch' && serves[0] === feedPoint)!;
        return set_V - terminal_V - branch.drop_V - named('L1.1').drop_V;
      }),
    );
    expect(along).toHaveLength(11);
    expect(named('T1.1').drop_V).toBeCloseTo(Math.max(...along), 6);
    expect(named('T1.1').drop_V).toBeGreaterThan(0.05);
    expect(named('T1.1').legs.reduce((sum, { drop_V }) => sum + drop_V, 0)).toBeCloseTo(0, 6);
  });
});
