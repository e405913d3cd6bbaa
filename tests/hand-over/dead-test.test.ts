import { describe, expect, it } from 'vitest';
import { chained, loop_ohm, loopPath } from '../../src/hand-over/dead-test.ts';
import { layouts } from '../../src/job/cables.ts';
import { smallJob } from './small-job.ts';

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
  it('is a chain in radial and trunk layouts alone', () => {
    const holds = layouts.filter((layout) => {
      const input = smallJob();
      input.job.cables.layout = layout;
      return chained(input);
    });
    expect(holds).toEqual(['radial', 'trunk']);
  });

  it('passes cable, contact, rails and joint out and back', () => {
    // Plus: 61.6 mohm, minus: 123 mohm, a joint in each.
    const path = s01(0, 20);
    expect(path.strip_ohm).toBeCloseTo(0.0616 + 0.123, 12);
    expect(path.leads).toEqual(
      (['positive', 'return'] as const).map((rail) => ({
        ...{ cable: 'C01', rail, contact_ohm: 0.005 },
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
    // S03: plus over C04 at the start, minus over C05 at the finish; linked a quarter along.
    const input = unlike();
    const run = input.setOut.runs[2]!;
    const [positive, back] = run.feedPoints;
    const path = loopPath({ positive: positive!, return: back! }, run, 5, input);
    expect(path.leads.map(({ cable, rail }) => [cable, rail])).toEqual([
      ['C04', 'positive'],
      ['C05', 'return'],
    ]);
    // 5 and 6 m of one conductor, two contacts; a quarter of 61.6 and three quarters of 123 mohm.
    expect(loop_ohm(path)).toBeCloseTo(11 * 0.0133 + 0.01 + 0.0154 + 0.09225, 12);
    // One conductor by itself, at its own end: lead and contact.
    const alone = loopPath({ positive: null, return: back! }, run, 20, input);
    expect(loop_ohm(alone)).toBeCloseTo(6 * 0.0133 + 0.005, 12);
  });

  it('passes a trunk with both conductors once, and of the branches the one that carries it', () => {
    // C01 (2 m, both) leads to a tap for S03, whose plus goes on over C04 (5 m) and whose minus over C05 (6 m).
    const input = unlike();
    const [first] = input.cables;
    first!.serves.push('S03-F1', 'S03-F2');
    first!.to = { kind: 'tap', id: 'D1.1-T1' };
    const run = input.setOut.runs[2]!;
    const [positive, back] = run.feedPoints;
    const path = loopPath({ positive: positive!, return: back! }, run, 0, input);
    expect(path.leads.map(({ cable, rail, contact_ohm }) => [cable, rail, contact_ohm])).toEqual([
      ['C01', 'positive', 0],
      ['C04', 'positive', 0.005],
      ['C01', 'return', 0],
      ['C05', 'return', 0.005],
    ]);
    // 2 x 2 m of trunk, 5 + 6 m of branch, two contacts, the whole minus rail.
    expect(loop_ohm(path)).toBeCloseTo(15 * 0.0133 + 0.01 + 0.123, 12);
  });

  it('leaves out a cable of the other conductor that lies on the same way', () => {
    // A feed point that draws plus over C04 and minus over C05.
    const input = unlike();
    input.cables[4]!.serves.push('S03-F1');
    const run = input.setOut.runs[2]!;
    const path = loopPath({ positive: run.feedPoints[0]!, return: null }, run, 0, input);
    expect(path.leads.map(({ cable }) => cable)).toEqual(['C04']);
  });
});
