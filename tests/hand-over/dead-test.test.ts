import { describe, expect, it } from 'vitest';
import { chained, loop_ohm, loopPath } from '../../src/hand-over/dead-test.ts';
import { cableOf, closeRing, smallJob } from './small-job.ts';

/** The small job with rails that differ, so that plus and minus can be told apart: 61.6 and 123 mohm a metre. */
function unlike() {
  const input = smallJob();
  Object.assign(input.products.strip, { railPositive_mohm_per_m: 61.6, railReturn_mohm_per_m: 123 });
  return input;
}

/** S01 of 20 units and 1 m, joined at cut line 10; a contact is 5 mohm, a joint 2 mohm, its cable 2 m of 13.3 mohm/m. */
function s01(from: number, to: number) {
  const input = unlike();
  const run = input.setOut.runs[0]!;
  const feedPoint = { ...run.feedPoints[0]!, cutLine: from };
  return loopPath({ positive: feedPoint, return: feedPoint }, run, to, input);
}

const lead_ohm = 0.0266 + 0.005;

describe('the way of a dead measurement', () => {
  it('is a chain unless a trunk comes back to its block, output by output', () => {
    const s01 = smallJob().setOut.runs[0]!.feedPoints[0]!;
    expect(chained(s01, smallJob())).toBe(true);
    const trunk = smallJob();
    Object.assign(cableOf(trunk, 'C01'), { kind: 'trunk', to: { kind: 'tap', id: 'D1.1-T1' } });
    expect(chained(s01, trunk)).toBe(true);
    const ring = smallJob();
    closeRing(ring);
    expect(chained(s01, ring)).toBe(false);
    // A run on another output is not concerned.
    Object.assign(ring.circuit.runs[0]!, { output: 'D2.1' });
    expect(chained(s01, ring)).toBe(true);
    const onward = smallJob();
    Object.assign(cableOf(onward, 'C02.1'), { kind: 'run to run' });
    expect(chained(s01, onward)).toBe(true);
    expect(chained(s01, { ...smallJob(), cables: [] })).toBe(false);
  });

  it('passes cable, contact, rails and joint out and back', () => {
    // Plus: 61.6 mohm, minus: 123 mohm, a joint in each.
    const path = s01(0, 20);
    expect(path.strip_ohm).toBeCloseTo(0.0616 + 0.123, 12);
    expect(path.leads).toEqual(
      (['positive', 'return'] as const).map((rail) => ({
        ...{ leg: 'C01', rail, contact_ohm: 0.005 },
        copper_ohm: expect.closeTo(0.0266, 12),
      })),
    );
    expect(path.joints).toEqual([
      { run: 'S01', cutLine: 10, rail: 'positive', ohm: 0.002 },
      { run: 'S01', cutLine: 10, rail: 'return', ohm: 0.002 },
    ]);
    expect(loop_ohm(path)).toBeCloseTo(2 * lead_ohm + 0.1846 + 0.004, 12);
  });

  it('is the same from either side', () => {
    expect(loop_ohm(s01(0, 20))).toBeCloseTo(loop_ohm(s01(20, 0)), 12);
    expect(loop_ohm(s01(3, 10))).toBeCloseTo(loop_ohm(s01(10, 3)), 12);
  });

  it('passes half a joint where it begins or ends in its middle, and none where it goes nowhere', () => {
    for (const [from, to] of [
      [0, 10],
      [10, 0],
      [10, 20],
      [20, 10],
    ] as const) {
      expect(s01(from, to).joints.map(({ ohm }) => ohm)).toEqual([0.001, 0.001]);
      // Half the strip: 92.3 mohm, and two halves of a joint.
      expect(loop_ohm(s01(from, to))).toBeCloseTo(2 * lead_ohm + 0.0923 + 0.002, 12);
    }
    expect(s01(10, 10).joints).toEqual([]);
    expect(loop_ohm(s01(10, 10))).toBeCloseTo(2 * lead_ohm, 12);
  });

  it('meets no joint that lies to one side of it', () => {
    expect(s01(0, 9).joints).toEqual([]);
    expect(s01(11, 20).joints).toEqual([]);
    expect(s01(9, 11).joints).toHaveLength(2);
  });

  it('passes the rail of each conductor from where that one is fed', () => {
    // S03: plus over C03.1 at the start, minus over C03.2 at the finish; linked a quarter along.
    const input = unlike();
    const run = input.setOut.runs[2]!;
    const [positive, back] = run.feedPoints;
    const path = loopPath({ positive: positive!, return: back! }, run, 5, input);
    expect(path.leads.map(({ leg, rail }) => [leg, rail])).toEqual([
      ['C03.1', 'positive'],
      ['C03.2', 'return'],
    ]);
    // 5 and 6 m of one conductor, two contacts; a quarter of 61.6 and three quarters of 123 mohm.
    expect(loop_ohm(path)).toBeCloseTo(11 * 0.0133 + 0.01 + 0.0154 + 0.09225, 12);
    // One conductor by itself, at its own end: lead and contact.
    const alone = loopPath({ positive: null, return: back! }, run, 20, input);
    expect(loop_ohm(alone)).toBeCloseTo(6 * 0.0133 + 0.005, 12);
  });

  it('leaves out the link, since the lead is off its block', () => {
    expect(s01(0, 20).leads.map(({ leg }) => leg)).not.toContain('L1.1');
  });

  it('passes a trunk with both conductors as far as the tap of the branch that carries it, which it passes uncut', () => {
    // C01 is a trunk of two legs, 1.5 m to a tap for S03 and 0.5 m on to another for S01: C03.1 (5 m) and C03.2 (6 m) leave
    // the first.
    const input = unlike();
    const trunk = cableOf(input, 'C01');
    const [tap, last] = [{ kind: 'tap', id: 'D1.1-T1' } as const, { kind: 'tap', id: 'D1.1-T2' } as const];
    const [leg] = trunk.legs;
    trunk.serves.push('S03-F1', 'S03-F2');
    Object.assign(trunk, {
      ...{ kind: 'trunk', to: last },
      legs: [
        { ...leg!, id: 'C01/1', to: tap, serves: trunk.serves, loop_ohm: 2 * 1.5 * 0.0133 },
        { ...leg!, id: 'C01/2', from: tap, to: last, serves: ['S01-F1'], loop_ohm: 2 * 0.5 * 0.0133 },
      ],
    });
    for (const id of ['C03.1', 'C03.2'])
      for (const end of [cableOf(input, id), cableOf(input, id).legs[0]!]) Object.assign(end, { from: tap });
    const run = input.setOut.runs[2]!;
    const [positive, back] = run.feedPoints;
    const path = loopPath({ positive: positive!, return: back! }, run, 0, input);
    expect(path.leads.map(({ leg, rail, contact_ohm }) => [leg, rail, contact_ohm])).toEqual([
      ['C01/1', 'positive', 0],
      ['C03.1', 'positive', 0.01],
      ['C01/1', 'return', 0],
      ['C03.2', 'return', 0.01],
    ]);
    // 2 x 1.5 m of trunk, 5 + 6 m of branch, four contacts, the whole minus rail.
    expect(loop_ohm(path)).toBeCloseTo(14 * 0.0133 + 0.02 + 0.123, 12);
  });

  it('passes the contact of the tap at which a trunk ends', () => {
    // The same trunk as far as its end, and S01 behind that over C02.1, 3 m.
    const input = unlike();
    const [tap, last] = [{ kind: 'tap', id: 'D1.1-T1' } as const, { kind: 'tap', id: 'D1.1-T2' } as const];
    const trunk = cableOf(input, 'C01');
    const leg = trunk.legs[0]!;
    Object.assign(trunk, {
      ...{ kind: 'trunk', to: last },
      legs: [
        { ...leg, id: 'C01/1', to: tap, loop_ohm: 2 * 1.5 * 0.0133 },
        { ...leg, id: 'C01/2', from: tap, to: last, loop_ohm: 2 * 0.5 * 0.0133 },
      ],
    });
    const branch = cableOf(input, 'C02.1');
    Object.assign(branch, { from: last, serves: ['S01-F1'] });
    Object.assign(branch.legs[0]!, { from: last, serves: ['S01-F1'] });
    const run = input.setOut.runs[0]!;
    const [fed] = run.feedPoints;
    const path = loopPath({ positive: fed!, return: null }, run, 0, input);
    expect(path.leads.map(({ leg: id, contact_ohm }) => [id, contact_ohm])).toEqual([
      ['C01/1', 0],
      ['C01/2', 0.005],
      ['C02.1', 0.01],
    ]);
    expect(loop_ohm(path)).toBeCloseTo(5 * 0.0133 + 0.015, 12);
  });

  it('leads through the rails and joints of the run before, where a cable goes on from its far end', () => {
    // S02 behind S01: from its finish, cut line 20, over C02.1, 3 m, to the start of S02.
    const input = unlike();
    const [first, second] = input.setOut.runs;
    const onward = cableOf(input, 'C02.1');
    const from = { kind: 'pad', run: 'S01', cutLine: 20, feedPoint: null } as const;
    Object.assign(onward, { kind: 'run to run', from });
    Object.assign(onward.legs[0]!, { from });
    for (const serves of [cableOf(input, 'C01').serves, cableOf(input, 'C01').legs[0]!.serves])
      serves.push('S02-F1');
    const [fed] = second!.feedPoints;
    const path = loopPath({ positive: fed!, return: fed! }, second!, fed!.cutLine, input);
    expect(path.leads.map(({ leg, rail, contact_ohm }) => [leg, rail, contact_ohm])).toEqual(
      (['positive', 'return'] as const).flatMap((rail) => [
        ['C01', rail, 0.005],
        ['C02.1', rail, 0.01],
      ]),
    );
    expect(path.joints.map(({ run, cutLine, rail }) => [run, cutLine, rail])).toEqual([
      ['S01', 10, 'positive'],
      ['S01', 10, 'return'],
    ]);
    // 2 + 3 m of cable there and back, six contacts, both rails of S01 and its two joints.
    expect(first!.feedPoints[0]!.cutLine).toBe(0);
    expect(loop_ohm(path)).toBeCloseTo(10 * 0.0133 + 0.03 + 0.0616 + 0.123 + 0.004, 12);
    // On to the far end of S02, 1 m more of both rails.
    expect(
      loop_ohm(loopPath({ positive: fed!, return: fed! }, second!, 20 - fed!.cutLine, input)),
    ).toBeCloseTo(10 * 0.0133 + 0.03 + 2 * 0.1846 + 0.004, 12);
  });

  it('leaves out a cable of the other conductor that lies on the same way', () => {
    // A feed point that draws plus over C03.1 and minus over C03.2.
    const input = unlike();
    const back = cableOf(input, 'C03.2');
    back.serves.push('S03-F1');
    back.legs[0]!.serves.push('S03-F1');
    const run = input.setOut.runs[2]!;
    const path = loopPath({ positive: run.feedPoints[0]!, return: null }, run, 0, input);
    expect(path.leads.map(({ leg }) => leg)).toEqual(['C03.1']);
  });
});
