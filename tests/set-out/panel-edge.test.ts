import { describe, expect, it } from 'vitest';
import { type Job, newJob, sizeJob } from '../../src/index.ts';
import { newOpening } from '../../src/job/opening.ts';

/** Upright slots of 20 mm at these middles in a panel 1200 mm wide. */
function wall(xs_mm: readonly number[], change: (job: Job) => void = () => {}): Job {
  const job = newJob();
  Object.assign(job.panel, { width_mm: 1200, height_mm: 1200 });
  job.section.batten_mm = 10;
  job.slots = {
    ...{ from: 'segments', width_mm: 20 },
    segments: xs_mm.map((x) => ({ x0_mm: x, y0_mm: 100, x1_mm: x, y1_mm: 1100 })),
  };
  change(job);
  return job;
}

function sized(job: Job) {
  const outcome = sizeJob(job);
  if (!outcome.ok) throw new Error(outcome.issues.map(({ sentence }) => sentence).join(' '));
  return outcome.value;
}

const edge = (job: Job) => sized(job).section.edge_mm;

describe('the edge of the panel', () => {
  it('counts where a slot is nearer to it than half the pitch: 60 of 200, to 1140 as to the left', () => {
    expect(edge(wall([60, 260, 460]))).toBe(60);
    expect(edge(wall([740, 940, 1140]))).toBe(60);
    expect(edge(wall([100, 300]))).toBeNull();
    expect(edge(wall([98.1, 298.1]))).toBeNull();
  });

  it('is on the side of the strip', () => {
    expect(edge(wall([60, 260], (job) => Object.assign(job.section, { stripOffset_mm: -12 })))).toBe(-60);
  });

  it('is the side of a door that a slot passes, and not of one above it', () => {
    const door = (y_mm: number) =>
      wall([300, 500], (job) => {
        const opening = { ...newOpening('D', job.panel), x_mm: 540, y_mm, width_mm: 200, height_mm: 90 };
        job.openings = [{ ...opening, rim_mm: 0 }];
      });
    expect(edge(door(400))).toBe(40);
    expect(edge(door(1105))).toBeNull();
  });

  it('is that of the slot’s own panel: 700 is 50 from a joint at 650', () => {
    const two = wall([100, 300, 700, 900], (job) => {
      const panel = { name: '', height_mm: 1200, raised_mm: 0, gap_mm: 0, slotCount: null } as const;
      job.panels = [
        { ...panel, id: 'P1', width_mm: 650, joint: 'in line' },
        { ...panel, id: 'P2', width_mm: 550, joint: 'in line' },
      ];
    });
    expect(edge(two)).toBe(50);
  });

  it('is that of a single slot that does not stand in the middle', () => {
    expect(edge(wall([400]))).toBe(400);
    expect(edge(wall([600]))).toBeNull();
  });

  it('warms the section, is a note of its sheet, and is a remedy where heat fails', () => {
    const solder = (job: Job) => sized(job).heat.temperatures.find(({ id }) => id === 'solder')!.value_degC;
    const near = wall([30, 230]);
    expect(solder(near)).toBeGreaterThan(solder(wall([130, 330])) + 0.5);
    const { notes } = sized(near);
    expect(
      notes.some(({ sheet, sentence }) => sheet === 'section' && /panel ends 30 mm/.test(sentence)),
    ).toBe(true);
    const hot = sized(
      wall([30, 230], (made) => {
        made.strip.entry = '24V-14.4W';
        made.section.cover = 'opal acrylic';
      }),
    );
    const failed = hot.findings.filter(({ id, status }) => id.startsWith('heat-') && status === 'fails');
    expect(failed.length).toBeGreaterThan(0);
    const says = failed.flatMap(({ remedies }) => remedies).map(({ sentence }) => sentence);
    expect(says.some((sentence) => /from the middle of one/.test(sentence))).toBe(true);
  });
});
