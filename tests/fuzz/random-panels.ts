import type { Job } from '../../src/index.ts';
import { outlineOf, type Panel } from '../../src/job/panels.ts';
import type { Random } from '../../src/numeric/seeded-random.ts';
import { between, chance, pick, whole } from './random.ts';

/**
 * Mostly none; else the wall cut into panels with gaps and corners, some lower or raised, so that slots given as lines or
 * lengths often meet a gap. The wall is as large as they are.
 */
export function withRandomPanels(job: Job, random: Random): Job {
  if (chance(random, job.slots.from === 'generator' ? 0.7 : 0.95)) return job;
  const count = whole(random, 1, 4);
  const { width_mm, height_mm } = job.panel;
  const panels = Array.from({ length: count }, (_, i): Panel => {
    const raised_mm = chance(random, 0.8) ? 0 : between(random, 0, 0.2) * height_mm;
    return {
      ...{ id: `P${i + 1}`, name: pick(random, ['', 'Bay', 'Left of the stair']) },
      width_mm: Math.min(10000, Math.max(50, (width_mm / count) * between(random, 0.8, 1))),
      height_mm: Math.max(
        50,
        chance(random, 0.8) ? height_mm - raised_mm : between(random, 0.5, 0.8) * height_mm,
      ),
      raised_mm,
      gap_mm: pick(random, [0, 3, between(random, 0, 60)]),
      joint: pick(random, ['in line', 'in line', 'inner corner', 'outer corner'] as const),
      slotCount: chance(random, 0.7) ? null : whole(random, 0, 6),
    };
  });
  return { ...job, panel: outlineOf(panels), panels };
}
