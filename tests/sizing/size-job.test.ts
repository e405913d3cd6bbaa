import { describe, expect, it } from 'vitest';
import { demoJobs, type Job, newJob, type Sizing, sizeJob, sizing } from '../../src/index.ts';
import { newZone } from '../../src/job/zone.ts';

function size(job: Job): Sizing {
  const result = sizeJob(job);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value;
}

const jobs: [string, Job][] = [
  ['plain wall', newJob()],
  ...demoJobs.map((d): [string, Job] => [d.id, d.job]),
];

describe.each(jobs)('%s', (_, job) => {
  const answer = size(job);
  const { circuit, drivers, setOut, cables } = answer;

  it('answers in the shape it promises, with finite numbers only', () => {
    expect(sizing.safeParse(answer).error?.issues).toBeUndefined();
  });

  it('loses no current and no watt: below 1 nA, and driver watts are lamp and copper watts to 1e-9', () => {
    expect(circuit.unaccounted_A).toBeLessThan(1e-9);
    const used = circuit.lamps_W + circuit.stripCopper_W + circuit.cable_W + circuit.dimmer_W;
    expect(Math.abs(circuit.supply_W - used)).toBeLessThan(1e-9 * Math.max(1, circuit.supply_W));
    const delivered = drivers.drivers.reduce((sum, driver) => sum + driver.watts, 0);
    expect(delivered).toBeCloseTo(circuit.supply_W, 9);
    // The circuit's least resistance, 1 micro-ohm, stands in the plus of each dimmer.
    const plus_W = answer.installation.dimmers.reduce((sum, { current_A }) => sum + 1e-6 * current_A ** 2, 0);
    const lost_W = cables.reduce((sum, cable) => sum + cable.loss_W, 0);
    expect(lost_W + plus_W).toBeCloseTo(circuit.cable_W, 9);
  });

  it('puts every run on one output and every piece on one reel', () => {
    const runs = drivers.drivers.flatMap((driver) => driver.outputs.flatMap((output) => output.runs));
    expect(runs.toSorted()).toEqual(setOut.runs.map((run) => run.id).toSorted());
    const pieces = setOut.reels.flatMap((r) => r.pieces);
    expect(pieces.toSorted()).toEqual(setOut.runs.flatMap((run) => run.pieces.map((p) => p.id)).toSorted());
  });

  it('loads no output beyond what is usable', () => {
    for (const output of drivers.drivers.flatMap((driver) => driver.outputs)) {
      expect(output.load).toBeLessThanOrEqual(1 + 1e-9);
    }
  });

  it('balances light and heat', () => {
    expect(Math.abs(answer.light.balance)).toBeLessThan(1e-6);
    const absorbed = Object.values(answer.light.absorbed).reduce((sum, share) => sum + share, 0);
    expect(absorbed + answer.light.outFraction).toBeCloseTo(1, 6);
    expect(Math.abs(answer.heat.balance)).toBeLessThan(1e-3);
  });

  it('lists findings worst first, each with what it rests on and a sentence', () => {
    const order = ['fails', 'watch', 'passes', 'note'];
    const ranks = answer.findings.map((finding) => order.indexOf(finding.status));
    expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
    for (const finding of answer.findings) {
      expect(finding.basis.length).toBeGreaterThan(10);
      expect(finding.sentence).toMatch(/\.$/);
      expect(finding.sentence).not.toMatch(/complies|\bsafe\b|approved|NaN|undefined|Infinity/i);
    }
    expect(new Set(answer.findings.map((f) => f.id)).size).toBe(answer.findings.length);
  });

  it('gives the same answer twice', () => {
    expect(size(structuredClone(job))).toEqual(answer);
  });
});

describe('the demo jobs', () => {
  it('have 6, 28, 60, 16 and 44 slots; one at 12 V, one slanted, one that fails at least three checks, one in zones, one of panels', () => {
    const answers = demoJobs.map((demo) => size(demo.job));
    expect(answers.map((a) => a.setOut.slots.length)).toEqual([6, 28, 60, 16, 44]);
    expect(demoJobs[0]!.job.strip.entry).toMatch(/^12V/);
    expect(answers[1]!.setOut.slots.every((s) => s.x1_mm - s.x0_mm > 100 && s.y1_mm - s.y0_mm > 100)).toBe(
      true,
    );
    const failing = answers.map((a) => a.findings.filter((f) => f.status === 'fails').length);
    expect(failing[0]).toBe(0);
    expect(failing[1]).toBe(0);
    expect(failing[2]).toBeGreaterThanOrEqual(3);
    expect(failing[3]).toBe(0);
    expect(failing[4]).toBe(0);
    // 20 in each outer panel, 4 over the door.
    expect(answers[4]!.setOut.slots.filter(({ panel }) => panel === 'P2')).toHaveLength(4);
    expect(answers[3]!.light.zones.map(({ name }) => name)).toEqual(['Reading desk', 'Armchair']);
  });
});

/** The plain wall with one slot fed in one way by one cable. */
function oneSlot(change: (job: Job) => void): Job {
  const job = structuredClone(newJob());
  job.slots = {
    from: 'segments',
    width_mm: 20,
    segments: [{ x0_mm: 1200, y0_mm: 100, x1_mm: 1200, y1_mm: 2300 }],
  };
  change(job);
  return job;
}

describe('one slot worked by hand', () => {
  it('drop of the cable: two conductors of 13.3 ohm/km at 40 degC, twice the contact of a terminal', () => {
    const answer = size(oneSlot(() => {}));
    const cable = answer.cables[0]!;
    // The case stands 20 mm in from the corner of its place (200, −140), terminals in the middle of its right end; the place
    // is left by the middle of its top (650, −20); way at 40, slot from (1200, 100), strip from a little above; tails, a tenth.
    const { length_mm: case_mm, width_mm: across_mm } = answer.products.driver;
    const inside_mm = 650 - (200 + 20 + case_mm) + (-20 - (-140 + 20 + across_mm / 2));
    const start_mm = 100 + answer.setOut.runs[0]!.darkStart_mm;
    const length_mm = (inside_mm + 60 + (1200 - 650) + (start_mm - 40) + 600) * 1.1;
    expect(cable.length_mm).toBeCloseTo(length_mm, 6);
    const copper_ohm = 2 * (length_mm / 1e6) * 13.3 * (1 + 0.00393 * 20);
    expect(cable.drop_V).toBeCloseTo(cable.current_A * (copper_ohm + 2 * 0.005), 9);
  });

  it('watts: near 2.4 W/m at nominal volts, and a little above, because warm lamps draw more', () => {
    const answer = size(oneSlot(() => {}));
    const perMetre = answer.circuit.runs[0]!.watts / answer.setOut.strip_m;
    expect(perMetre).toBeGreaterThan(2.3);
    expect(perMetre).toBeLessThan(2.6);
  });

  it('fed at the finish by a cable as long as from the start, it is its own mirror image', () => {
    const atStart = oneSlot((job) => {
      job.cables.way = 'foot';
      job.drivers.places[0]!.y_mm = job.cables.wayInset_mm;
    });
    const atFinish = oneSlot((job) => {
      job.cables.way = 'head';
      job.drivers.places[0]!.y_mm = job.panel.height_mm - job.cables.wayInset_mm;
      job.feeds.arrangement = 'finish';
    });
    const [a, b] = [size(atStart).circuit.runs[0]!, size(atFinish).circuit.runs[0]!];
    expect(b.unit_V.toReversed().map((v) => v.toFixed(9))).toEqual(a.unit_V.map((v) => v.toFixed(9)));
  });

  it('every arrangement is solved, and feeding both ends drops less than feeding one', () => {
    const drops = (['start', 'finish', 'both', 'between', 'crossed'] as const).map((arrangement) => {
      const answer = size(oneSlot((job) => (job.feeds.arrangement = arrangement)));
      expect(answer.circuit.unaccounted_A).toBeLessThan(1e-9);
      return answer.circuit.runs[0]!.drop_V;
    });
    expect(drops[2]).toBeLessThan(drops[0]!);
    expect(drops[3]).toBeLessThan(drops[0]!);
  });

  it('fed crossed, every unit sees the same copper, so light is more even than fed at one end', () => {
    const fall = (arrangement: Job['feeds']['arrangement']) =>
      size(oneSlot((job) => (job.feeds.arrangement = arrangement))).circuit.runs[0]!.fall;
    expect(fall('crossed')).toBeLessThan(fall('start'));
  });
});

describe('cable layouts', () => {
  it.each(['radial', 'trunk', 'ring', 'run to run'] as const)(
    '%s: solved, balanced, every feed point reached',
    (layout) => {
      const job = structuredClone(newJob());
      job.cables.layout = layout;
      const answer = size(job);
      expect(answer.circuit.unaccounted_A).toBeLessThan(1e-9);
      expect(answer.circuit.runs.every((run) => run.feed_A.length === 1)).toBe(true);
      expect(answer.cables.reduce((sum, c) => sum + c.loss_W, 0)).toBeCloseTo(answer.circuit.cable_W, 9);
    },
  );

  it('a run-to-run layout with runs fed at both ends is refused by name', () => {
    const job = structuredClone(newJob());
    job.cables.layout = 'run to run';
    job.feeds.arrangement = 'both';
    expect(sizeJob(job)).toMatchObject({ ok: false, issues: [{ code: 'layout-needs-end-feed' }] });
  });
});

describe('refusals', () => {
  it.each([
    [
      'a driver too small for anything',
      (job: Job) => (job.drivers.data.rated_W = 5),
      'load-larger-than-output',
    ],
    ['an unknown strip', (job: Job) => (job.strip.entry = 'none'), 'unknown-entry'],
    ['a driver of another voltage', (job: Job) => (job.drivers.entry = '12V-60W'), 'voltage-mismatch'],
    ['levels that do not match', (job: Job) => (job.dimming.levels = [1, 1]), 'channel-levels'],
    [
      'a slot that is not there',
      (job: Job) => job.dimming.zones.push(newZone({ id: 'Z1', name: 'a', slots: [99] })),
      'no-such-slot',
    ],
    ['a strip beside the face', (job: Job) => (job.section.stripOffset_mm = 900), 'strip-wider-than-cavity'],
  ])('%s', (_, change, code) => {
    const job = structuredClone(newJob());
    change(job);
    const result = sizeJob(job);
    expect(result.ok ? [] : result.issues.map((issue) => issue.code)).toContain(code);
  });
});
