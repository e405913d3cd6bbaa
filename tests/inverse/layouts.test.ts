import { describe, expect, it } from 'vitest';
import { askedLayouts, askJobLayouts, demoJobs, newJob, type Outcome, sizeJob } from '../../src/index.ts';
import { layoutRowProposal } from '../../web/state/supply-proposals.ts';

function granted<Value>(outcome: Outcome<Value>): Value {
  if (!outcome.ok) throw new Error(outcome.issues.map(({ sentence }) => sentence).join(' '));
  return outcome.value;
}

describe('which layout', () => {
  const zoned = demoJobs.find(({ id }) => id === 'reading-wall')!.job;
  const { rows } = granted(askJobLayouts(zoned));

  it('asks four for the wall and four for each zone, and keeps its shape', () => {
    expect(askedLayouts.safeParse({ rows, remarks: [] }).error?.issues).toBeUndefined();
    expect(rows.map(({ zone }) => zone)).toEqual([null, 'Z1', 'Z2'].flatMap((zone) => Array(4).fill(zone)));
    expect(rows.filter(({ isJobs }) => isJobs).map(({ layout }) => layout)).toEqual(Array(3).fill('trunk'));
  });

  it('says of each what the job sized with it says', () => {
    for (const row of rows) {
      const proposal = layoutRowProposal(row, zoned);
      if (!proposal) {
        expect(row.why).not.toBeNull();
        continue;
      }
      const { cables, circuit } = granted(sizeJob(proposal.edit(zoned)));
      expect(row.cable_m).toBeCloseTo(cables.reduce((sum, { length_mm }) => sum + length_mm, 0) / 1000, 6);
      expect(row.drop).toBeCloseTo(Math.max(...circuit.runs.map(({ drop }) => drop)), 9);
    }
  });

  it('by hand: a cable to each feed point is more cable than a trunk, and drops less in the thin of it', () => {
    const [radial, trunk] = granted(askJobLayouts(newJob())).rows;
    expect([radial!.layout, trunk!.layout]).toEqual(['radial', 'trunk']);
    expect(radial!.cable_m).toBeGreaterThan(trunk!.cable_m!);
    expect(radial!.drop).toBeLessThan(trunk!.drop!);
    expect(radial!.isJobs).toBe(true);
  });
});
