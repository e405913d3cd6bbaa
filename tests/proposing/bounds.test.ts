import { describe, expect, it } from 'vitest';
import { demoJobs } from '../../src/job/demo-jobs.ts';
import type { Job } from '../../src/job/job.ts';
import {
  fewestVolts_V,
  leastCopper_mm2_m,
  leastDelivered_W,
  leastDrivers,
  leastVolts_V,
  leastWays,
  mostRunsOfOutput,
} from '../../src/proposing/bounds.ts';
import { figuresOf } from '../../src/proposing/figures.ts';
import { prepare } from '../../src/sizing/prepare.ts';
import { settle } from '../../src/sizing/settle.ts';
import { judged } from '../../src/sizing/size-job.ts';

function settledOf(job: Job) {
  const prepared = prepare(job, 'quick');
  if (!prepared.ok) throw new Error(prepared.issues[0]!.sentence);
  const settled = settle(prepared.value);
  if (!settled.ok) throw new Error(settled.issues[0]!.sentence);
  const answer = judged(prepared.value, settled.value);
  if (!answer.ok) throw new Error(answer.issues[0]!.sentence);
  return { ...prepared.value, settled: settled.value, judged: answer.value };
}

const stair = demoJobs.find(({ id }) => id === 'stair-wall')!.job;
const foyer = demoJobs.find(({ id }) => id === 'foyer-wall')!.job;

const wired = (job: Job, layout: Job['cables']['layout'], arrangement: Job['feeds']['arrangement']): Job => ({
  ...job,
  feeds: { ...job.feeds, arrangement },
  cables: { ...job.cables, layout },
});

const walls = [stair, foyer].flatMap((job) =>
  (['radial', 'trunk', 'ring'] as const).flatMap((layout) =>
    (['start', 'both'] as const).map((feeds) => ({
      name: `${job.title.job}, ${layout}, ${feeds}`,
      job: wired(job, layout, feeds),
    })),
  ),
);

describe('bounds of a design', () => {
  it.each(walls)('never go beyond what it comes to: $name', ({ job }) => {
    const at = settledOf(job);
    const { layout } = job.cables;
    const { area_mm2 } = at.products.cable;
    const cabling = { area_mm2, trunk_mm2: at.products.trunk.area_mm2 };
    const figures = figuresOf(at.judged, { present: job, isPriced: false });
    const { runs } = at.setOut;
    const ways = leastWays(job, at.products, runs);
    const lowest_V = Math.min(
      ...at.settled.solution.runs.flatMap(({ channels }) => channels.flatMap(({ unit_V }) => [...unit_V])),
    );
    const limit_V = leastVolts_V(job, at.products);
    const fewest_V = fewestVolts_V(job, at.products, runs, { ...cabling, layout });
    if (lowest_V >= limit_V) expect(fewest_V).toBeLessThanOrEqual(lowest_V);
    const least_W = leastDelivered_W(job, at.products, runs, Math.min(fewest_V, lowest_V));
    expect(least_W).toBeLessThanOrEqual(at.settled.solution.out_W);
    const mostRuns = mostRunsOfOutput(job, at.products, runs, Math.min(fewest_V, lowest_V));
    const outputs = at.settled.allocation.drivers.flatMap((driver) => driver.outputs);
    expect(mostRuns).toBeGreaterThanOrEqual(Math.max(...outputs.map((output) => output.runs.length)));
    const copper_mm2_m = leastCopper_mm2_m({ layout, ways, mostRuns }, cabling);
    expect(copper_mm2_m).toBeLessThanOrEqual(figures.copper_mm2_m);
    const least = leastDrivers(job, at.products, least_W);
    expect(least.driverCount).toBeLessThanOrEqual(figures.driverCount);
    expect(least.rated_W).toBeLessThanOrEqual(figures.rated_W);
  });

  /** Twelve equal runs straight up from a way along the bottom: the sum of their ways by hand. */
  it('count every cable from the nearest place', () => {
    const job: Job = {
      ...stair,
      panel: { width_mm: 1000, height_mm: 1000 },
      slots: {
        ...{ from: 'segments', width_mm: 20 },
        segments: [300, 700].map((x_mm) => ({ x0_mm: x_mm, y0_mm: 100, x1_mm: x_mm, y1_mm: 900 })),
      },
      cables: {
        ...stair.cables,
        way: 'foot',
        wayInset_mm: 40,
        tail_mm: 250,
        allowance: 0.1,
        layout: 'radial',
      },
      drivers: {
        ...stair.drivers,
        places: [{ ...stair.drivers.places[0]!, x_mm: 450, y_mm: -140, width_mm: 100, height_mm: 120 }],
      },
    };
    const at = settledOf(job);
    const [first] = at.setOut.runs;
    // From the hole at (500, -20) up 60 mm to the way, 200 mm along it, then up to the strip; two tails of 250 mm.
    const each_mm = 60 + 200 + (first!.y0_mm - 40) + 500;
    const ways = leastWays(job, at.products, at.setOut.runs);
    expect(ways.radial_m).toBeCloseTo((2 * 2 * each_mm * 1.1) / 1000, 9);
  });

  /** By hand: five runs 5, 4, 3, 2 and 1 m off. Two to an output at most, (5, 4), (3, 2), (1): 9 m; all on one, 5 m. */
  it('count a trunk for every output there must be', () => {
    const ways = {
      ...{ radial_m: 0, branches_m: 0, radialCable_m: 0, branchCable_m: 0 },
      ...{ trunk_m: 5, trunks_m: [5, 4, 3, 2, 1] },
    };
    const copper = (mostRuns: number) =>
      leastCopper_mm2_m({ layout: 'trunk', ways, mostRuns }, { area_mm2: 1, trunk_mm2: 2 });
    expect([1, 2, 3, 5].map(copper)).toEqual([15, 9, 7, 5]);
  });
});
