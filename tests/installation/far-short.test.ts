import { describe, expect, it } from 'vitest';
import { shortAtFarEnd } from '../../src/installation/far-short.ts';

const blade = (rating_A: number) => ({ family: 'blade', rating_A }) as const;

describe('a short at the far end', () => {
  it('27 A by the copper of the worked example, but a 100 W driver stops at 6.3 A and a 5 A fuse stays', () => {
    const short = shortAtFarEnd({ set_V: 24, loop_ohm: 0.882, sourceLimit_A: 6.3, fuse: blade(5) });
    expect(short.prospective_A).toBeCloseTo(27.2, 1);
    expect(short).toMatchObject({
      fault_A: 6.3,
      reachesLimit: true,
      opensFuse: false,
      couldSitUnnoticed: false,
    });
  });

  it('sits unnoticed where the copper holds the current under what driver and fuse notice', () => {
    const short = shortAtFarEnd({ set_V: 24, loop_ohm: 2, sourceLimit_A: 20, fuse: blade(10) });
    expect(short).toMatchObject({
      fault_A: 12,
      reachesLimit: false,
      opensFuse: false,
      couldSitUnnoticed: true,
    });
    expect(short.fault_W).toBe(288);
    expect(shortAtFarEnd({ set_V: 24, loop_ohm: 2, sourceLimit_A: 20, fuse: blade(5) }).opensFuse).toBe(true);
  });

  it('is noticed by a driver whose limit it just meets, and by no fuse where there is none', () => {
    // 24 V over 2.4 ohm are 10 A.
    const met = shortAtFarEnd({ set_V: 24, loop_ohm: 2.4, sourceLimit_A: 10 });
    expect(met).toMatchObject({ reachesLimit: true, opensFuse: false, couldSitUnnoticed: false });
    const under = shortAtFarEnd({ set_V: 24, loop_ohm: 2.4, sourceLimit_A: 10.1 });
    expect(under).toMatchObject({ reachesLimit: false, opensFuse: false, couldSitUnnoticed: true });
  });
});
