import { describe, expect, it } from 'vitest';
import { demoJobs, type Job, newJob, type Sizing, sizeJob } from '../../src/index.ts';
import { newZone } from '../../src/job/zone.ts';

/** What papers and page take from the answer is in it, and agrees with itself. */

function size(job: Job): Sizing {
  const result = sizeJob(job);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value;
}

type Leg = Sizing['cables'][number]['legs'][number];
type End = Leg['from'];

const isSame = (a: End, b: End): boolean => {
  if (a.kind === 'pad') return b.kind === 'pad' && a.run === b.run;
  return b.kind !== 'pad' && a.kind === b.kind && a.id === b.id;
};

/** Whether current gets from the outputs to a part of a cable by parts that end where the next begins. */
function isReached(cable: Leg, cables: readonly Leg[], seen: readonly string[] = []): boolean {
  if (cable.from.kind === 'output') return true;
  return cables.some(
    (before) =>
      !seen.includes(before.id) &&
      isSame(before.to, cable.from) &&
      isReached(before, cables, [...seen, cable.id]),
  );
}

const layouts = ['radial', 'trunk', 'ring', 'run to run'] as const;

function inLayout(layout: (typeof layouts)[number]): Job {
  const job = newJob();
  job.cables.layout = layout;
  return job;
}

const jobs: [string, Job][] = [
  ...layouts.map((layout): [string, Job] => [layout, inLayout(layout)]),
  ...demoJobs.map((demo): [string, Job] => [demo.id, demo.job]),
];

describe.each(jobs)('%s', (_, job) => {
  const answer = size(job);
  const { cables, setOut, drivers, light } = answer;

  it('has cables that begin and end at outputs, taps and runs of the answer, and reach every feed point', () => {
    const outputs = drivers.drivers.flatMap((driver) => driver.outputs.map(({ id }) => id));
    const feedPoints = setOut.runs.flatMap((run) => run.feedPoints);
    const legs = cables.flatMap((cable) => cable.legs);
    const conductorsOf = new Map(
      cables.flatMap(({ legs, conductors }) => legs.map(({ id }) => [id, conductors])),
    );
    for (const cable of legs) {
      for (const end of [cable.from, cable.to]) {
        if (end.kind === 'output') expect(outputs).toContain(end.id);
        if (end.kind === 'pad') expect(setOut.runs.map(({ id }) => id)).toContain(end.run);
      }
      expect(isReached(cable, legs), cable.id).toBe(true);
      // A cable that ends at a feed point serves it, with the conductors that land there.
      if (cable.to.kind !== 'pad') continue;
      const { feedPoint } = cable.to;
      const landed = feedPoints.find(({ id }) => id === feedPoint)!;
      expect(cable.serves).toContain(feedPoint);
      expect([conductorsOf.get(cable.id), cable.to.cutLine]).toEqual([landed.conductors, landed.cutLine]);
    }
    const landings = cables.flatMap(({ to }) => (to.kind === 'pad' ? [to.feedPoint] : []));
    expect(landings.toSorted()).toEqual(feedPoints.map(({ id }) => id).toSorted());
  });

  it('has every driver in its place once, or says that there is no room for it', () => {
    for (const [i, place] of drivers.places.entries()) {
      const { x_mm, y_mm, width_mm, height_mm, depth_mm } = job.drivers.places[i]!;
      const { clearance_mm, length_mm, width_mm: w, height_mm: h } = answer.products.driver;
      const here = drivers.drivers.filter((driver) => driver.place === place.name).map(({ id }) => id);
      expect([...place.cases.map(({ driver }) => driver), ...place.without]).toEqual(here);
      for (const at of place.cases) {
        expect(at.x_mm - x_mm).toBeGreaterThanOrEqual(clearance_mm);
        expect(x_mm + width_mm - at.x_mm - at.across_mm).toBeGreaterThanOrEqual(clearance_mm - 1e-9);
        expect(y_mm + height_mm - at.y_mm - at.up_mm).toBeGreaterThanOrEqual(clearance_mm - 1e-9);
        expect(depth_mm - at.deep_mm).toBeGreaterThanOrEqual(clearance_mm - 1e-9);
        expect([at.across_mm, at.up_mm, at.deep_mm].toSorted()).toEqual([length_mm, w, h].toSorted());
      }
    }
  });

  it('shares all light of the strip out: what leaves, what each face takes, and the residue', () => {
    const taken = Object.values(light.absorbed).reduce((sum, share) => sum + share, 0);
    expect(light.outFraction + taken + light.balance).toBeCloseTo(1, 9);
  });
});

describe('figures a reader would have to look up', () => {
  const job = newJob();

  it('has the volts set in the job, else those of the driver', () => {
    expect(size(job).set_V).toBe(size(job).products.driver.output_V);
    const set = structuredClone(job);
    set.drivers.set_V = 23.5;
    expect(size(set).set_V).toBe(23.5);
  });

  it('has the products as used, the own data sheet over the catalogue', () => {
    const own = structuredClone(job);
    own.strip.data = { ...own.strip.data, width_mm: 11.5 };
    const { strip } = size(own).products;
    expect([strip.id, strip.width_mm]).toEqual([own.strip.entry, 11.5]);
  });

  it('has the zone of every run', () => {
    const zoned = structuredClone(job);
    zoned.dimming.zones = [newZone({ id: 'Z1', name: 'Left', slots: [1, 3] })];
    const zones = size(zoned).setOut.runs.map(({ zone }) => zone);
    expect(zones.slice(0, 4)).toEqual(['Left', null, 'Left', null]);
  });

  it('has the section: the closest slots 150 mm apart, 9 + 24 + 12 mm deep', () => {
    const three = structuredClone(job);
    three.slots = {
      ...three.slots,
      from: 'segments',
      segments: [100, 250, 430].map((x_mm) => ({ x0_mm: x_mm, y0_mm: 100, x1_mm: x_mm, y1_mm: 1100 })),
    } as Job['slots'];
    Object.assign(three.section, { cavity_mm: 24, available_mm: 46 });
    Object.assign(three.section.backing, { thickness_mm: 9 });
    Object.assign(three.section.front, { thickness_mm: 12 });
    const { section } = size(three);
    // Centre lines at 100, 250 and 430 mm: 150 and 180 mm apart, of which the closer counts.
    expect(section.pitch_mm).toBeCloseTo(150, 9);
    expect(section.layers.map(({ id, thickness_mm }) => [id, thickness_mm])).toEqual([
      ['backing', 9],
      ['cavity', 24],
      ['front', 12],
    ]);
    expect([section.depth_mm, section.available_mm]).toEqual([45, 46]);
  });

  it('has the figures of the breaker: inrush 16 A x 3 x 1.4142 = 67.9 A, on a B16 by the formula', () => {
    const plain = structuredClone(job);
    Object.assign(plain.site, { breakerCurve: 'B', breaker_A: 16, mains_V: 230 });
    plain.drivers.data = {
      ...plain.drivers.data,
      ...{ rated_W: 100, current_A: 100 / 24, efficiency: 0.9, powerFactor: 0.95 },
      ...{ inrush_A: 20, perBreakerB16: null },
    };
    const { breaker } = size(plain).drivers;
    // 100 W / 0.9 / (230 V x 0.95) = 0.5085 A; 0.8 x 16 / 0.5085 = 25.2; 67.88 / 20 = 3.4.
    expect(breaker).toMatchObject({ curve: 'B', rating_A: 16, most: '3 drivers' });
    expect(breaker.models).toMatchObject([{ printed: null, bySteady: 25, byInrush: 3, mostDrivers: 3 }]);
    expect(breaker.peak_A).toBeCloseTo(67.88, 2);
    expect(breaker.models[0]!.input_A).toBeCloseTo(0.5085, 4);
  });
});
