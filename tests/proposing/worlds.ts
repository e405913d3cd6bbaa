import { cableCatalogue } from '../../src/job/cable-catalogue.ts';
import { demoPrices } from '../../src/job/demo-prices.ts';
import { driverCatalogue } from '../../src/job/driver-catalogue.ts';
import type { Job } from '../../src/job/job.ts';
import { newJob } from '../../src/job/new-job.ts';
import type { Openable } from '../../src/job/open-choices.ts';
import { stripCatalogue } from '../../src/job/strip-catalogue.ts';
import { compareLists } from '../../src/numeric/priority-queue.ts';
import type { Random } from '../../src/numeric/seeded-random.ts';
import { jobOf } from '../../src/proposing/candidate.ts';
import { choicesOf, isPriced, type Within } from '../../src/proposing/choices.ts';
import { costOf, figuresOf } from '../../src/proposing/figures.ts';
import { sectionPicks, stageSection } from '../../src/proposing/section-stage.ts';
import { prepare } from '../../src/sizing/prepare.ts';
import { settle } from '../../src/sizing/settle.ts';
import { type Judged, judged } from '../../src/sizing/size-job.ts';
import { between, chance, pick, whole } from '../fuzz/random.ts';

/** A wall of a few slots with a few things to choose from. */
export interface World {
  readonly job: Job;
  readonly open: readonly Openable[];
  readonly within: Within;
}

const single = stripCatalogue.filter(({ channels }) => channels.length === 1);
const metric = cableCatalogue.filter(({ id }) => id.endsWith('mm2'));

function some<Value>(random: Random, of: readonly Value[], count: number): Value[] {
  const left = [...of];
  return Array.from({ length: count }, () => left.splice(whole(random, 0, left.length - 1), 1)[0]!);
}

/** Up to six slots, three strips, three cables, three sizes of driver and two layouts, some of them too little for anything. */
export function randomWorld(random: Random): World {
  const job = newJob();
  const strips = some(random, single, 3);
  const [strip] = strips;
  job.panel = { width_mm: whole(random, 400, 2400), height_mm: whole(random, 500, 2900) };
  job.slots = {
    ...{ from: 'generator', axis: 'upright', width_mm: whole(random, 10, 30) },
    ...{ left_mm: 80, right_mm: 80, foot_mm: 60, head_mm: 60 },
    spacing: { by: 'count', count: whole(random, 1, 6) },
  };
  job.section.batten_mm = 20;
  job.section.cavity_mm = whole(random, 14, 26);
  job.strip.entry = strip!.id;
  job.light.wanted_cd_per_m2 = pick(random, [50, 200, 400, 800]);
  job.site.dropLimit = pick(random, [0.01, 0.02, 0.03, 0.05]);
  job.cables.way = pick(random, ['head', 'foot']);
  job.cables.wayWidth_mm = pick(random, [30, 60, 120]);
  job.cables.tail_mm = whole(random, 0, 600);
  job.cables.fuses = pick(random, ['cartridge', 'electronic']);
  job.drivers.reserve = pick(random, [0, 0.1, 0.2]);
  job.drivers.places[0]!.x_mm = Math.round(between(random, -1500, job.panel.width_mm));
  const sizes = some(random, ['15', '20', '30', '40', '60', '75', '100', '150'], 3);
  const drivers = driverCatalogue.filter(({ id }) => sizes.some((watts) => id.endsWith(`-${watts}W`)));
  job.drivers.entry = drivers.find(({ output_V }) => output_V === strip!.nominal_V)!.id;
  const cables = some(random, metric, 3);
  job.cables.entry = cables[0]!.id;
  const layouts = some(random, ['radial', 'trunk', 'ring', 'run to run'] as const, 2);
  job.cables.layout = layouts[0]!;
  job.feeds.arrangement = pick(random, ['start', 'finish'] as const);
  if (chance(random, 0.5)) job.prices = demoPrices();
  const open: Openable[] = ['strip', 'level', 'layout', 'cables', 'drivers'];
  if (chance(random, 0.5)) open.push('carrier');
  if (chance(random, 0.5)) open.push('feeds');
  return {
    job,
    open,
    within: {
      strips: strips.map(({ id }) => id),
      drivers: drivers.map(({ id }) => id),
      cables: cables.map(({ id }) => id),
      layouts,
      arrangements: [job.feeds.arrangement, pick(random, ['both', 'between', 'crossed'] as const)],
    },
  };
}

const sized = (job: Job, accuracy: 'quick' | 'careful'): Judged | null => {
  const prepared = prepare(job, accuracy);
  if (!prepared.ok) return null;
  const settled = settle(prepared.value);
  if (!settled.ok) return null;
  const answer = judged(prepared.value, settled.value);
  return answer.ok ? answer.value : null;
};

const fails = ({ findings }: Judged, but?: 'heat'): boolean =>
  findings.some(({ status, question }) => status === 'fails' && question !== but);

/** Every design of a world as a job: all choices in every combination, whatever becomes of them. */
export function everyJob({ job, open, within }: World): Job[] {
  const choices = choicesOf(job, new Set(open), within);
  return sectionPicks(choices).flatMap((picked) => {
    const staged = stageSection(job, picked, { choices, isLevelOpen: open.includes('level') });
    if (!staged.ok) return [];
    const at = staged.value;
    return choices.drivers
      .filter(({ output_V }) => output_V === picked.strip.nominal_V)
      .flatMap((drivers) =>
        choices.feeds.flatMap((feeds) =>
          choices.layouts.flatMap((layout) =>
            choices
              .cabling(layout)
              .flatMap((cabling) =>
                choices.fuses.map((fuses) => jobOf({ at, drivers, feeds, layout, cabling, fuses })),
              ),
          ),
        ),
      );
  });
}

/**
 * The least cost of any design of a world that passes with care, each sized by itself with nothing known of the others; null
 * where none passes. Those that fail a quick sizing by more than heat are not sized with care, which is never milder.
 */
export function cheapestOf(world: World, cost = costOf): number[] | null {
  const choices = choicesOf(world.job, new Set(world.open), world.within);
  const ranking = { present: world.job, isPriced: isPriced(world.job, choices) };
  const passing = everyJob(world)
    .flatMap((job) => {
      const quick = sized(job, 'quick');
      return quick === null || fails(quick, 'heat') ? [] : [{ job, key: cost(figuresOf(quick, ranking)) }];
    })
    .sort((a, b) => compareLists(a.key, b.key));
  let least: number[] | null = null;
  for (const { job, key } of passing) {
    if (least !== null && compareLists(key, least) > 0) break;
    const careful = sized(job, 'careful');
    if (careful === null || fails(careful)) continue;
    const own = cost(figuresOf(careful, ranking));
    if (least === null || compareLists(own, least) < 0) least = own;
  }
  return least;
}
