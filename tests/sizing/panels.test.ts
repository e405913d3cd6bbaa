import { describe, expect, it } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { newJob } from '../../src/job/new-job.ts';
import { outlineOf, type Panel } from '../../src/job/panels.ts';
import { sizeJob } from '../../src/sizing/size-job.ts';

const panel = (id: string, width_mm: number, change: Partial<Panel> = {}): Panel => ({
  ...{ id, name: '', width_mm, height_mm: 2400, raised_mm: 0, gap_mm: 10, joint: 'in line', slotCount: null },
  ...change,
});

/** Four slots in each panel, fed along the foot from a place below the first. */
function wall(panels: Panel[], change: Partial<Job['cables']> = {}): Job {
  const plain = newJob();
  return {
    ...plain,
    ...{ panel: outlineOf(panels), panels },
    slots: { ...plain.slots, spacing: { by: 'count', count: 4 } } as Job['slots'],
    cables: { ...plain.cables, layout: 'radial', way: 'foot', wayInset_mm: 40, ...change },
  };
}

function sized(job: Job) {
  const answer = sizeJob(job);
  if (!answer.ok) throw new Error(JSON.stringify(answer.issues));
  return answer.value;
}

type Answer = ReturnType<typeof sized>;

const schedule = (answer: Answer, id: string) => answer.schedules.find((each) => each.id === id);
function column(answer: Answer, id: string, key: string) {
  const { columns, rows } = schedule(answer, id)!;
  const at = columns.findIndex((each) => each.key === key);
  return at < 0 ? undefined : rows.map((row) => row[at]);
}
const sum = (numbers: readonly unknown[]): number => numbers.reduce<number>((a, b) => a + Number(b), 0);

describe('a wall of one panel', () => {
  it('is the wall without panels, but for its mark', () => {
    const { panels: _, ...rest } = wall([panel('P1', 2400)]);
    const [one, none] = [sized(wall([panel('P1', 2400)])), sized({ ...rest, panels: [] })];
    const bare = (answer: Answer) => ({
      ...answer,
      setOut: { ...answer.setOut, slots: answer.setOut.slots.map((slot) => ({ ...slot, panel: null })) },
      cables: answer.cables.map((cable) => ({ ...cable, panels: [] })),
      schedules: [],
    });
    expect(bare(one)).toEqual(bare(none));
    expect(one.setOut.slots.every((slot) => slot.panel === 'P1')).toBe(true);
    expect(column(none, 'cables', 'panel')).toBeUndefined();
    expect(schedule(none, 'panels')).toBeUndefined();
  });
});

describe('a wall of three panels', () => {
  const straight = [panel('P1', 900), panel('P2', 900), panel('P3', 900)];
  const bent = straight.map((each, i): Panel => (i === 2 ? { ...each, joint: 'inner corner' } : each));

  it('has cables longer by twice the build-up wherever they go round an inner corner', () => {
    const [one, other] = [sized(wall(straight)), sized(wall(bent))];
    // 45 mm available: 90 mm more for each of the four slots of P3.
    const more = other.cables.map((cable, i) => cable.way_mm - one.cables[i]!.way_mm);
    expect(more.map((mm) => Math.round(mm * 1e6) / 1e6)).toEqual(
      one.cables.map(({ panels }) => (panels.includes('P3') ? 90 : 0)),
    );
    expect(one.cables.filter(({ panels }) => panels.includes('P3'))).toHaveLength(4);
    // Nobody compares slots round a corner: S08 and S09 are no neighbours any more.
    const across = ({ setOut }: Answer) =>
      setOut.neighbours.filter(({ slot, beside }) => slot === 'S08' && beside === 'S09').length;
    expect([across(one), across(other)]).toEqual([1, 0]);
  });

  it('says the panel in its lists, and the packing list adds up to the wall', () => {
    const answer = sized(wall(bent));
    expect(column(answer, 'cutting-list', 'panel')).toEqual(
      answer.setOut.runs.map((_, i) => `P${Math.floor(i / 4) + 1}`),
    );
    expect(column(answer, 'cables', 'panel')).toContain('P1, P2, P3');
    // P3 begins at 1,820: what lies 2,000 from the left lies 180 from its own edge.
    const [x, own] = [column(answer, 'feed-points', 'x')!, column(answer, 'feed-points', 'panelX')!];
    expect(Number(x.at(-1)) - Number(own.at(-1))).toBe(1820);
    expect(sum(column(answer, 'panels', 'strip')!)).toBeCloseTo(answer.setOut.strip_m, 9);
    expect(sum(column(answer, 'panels', 'pieces')!)).toBe(
      answer.setOut.runs.flatMap(({ pieces }) => pieces).length,
    );
    expect(sum(column(answer, 'panels', 'feedPoints')!)).toBe(
      answer.setOut.runs.flatMap(({ feedPoints }) => feedPoints).length,
    );
    // Every cable feeds one panel, and passes those on its way there; links stay in their place.
    expect(
      column(answer, 'panels', 'ending')!
        .flatMap((text) => String(text).split(', '))
        .sort(),
    ).toEqual(answer.cables.flatMap(({ id, kind }) => (kind === 'link' ? [] : [id])).sort());
    expect(answer.cautions.map(({ id }) => id)).toContain('panel-gaps');
    expect(sized(wall([panel('P1', 900)])).cautions.map(({ id }) => id)).not.toContain('panel-gaps');
  });

  it('fails where its cables run above or below a panel, and says what helps', () => {
    const low = straight.map(
      (each, i): Panel => (i === 2 ? { ...each, raised_mm: 100, height_mm: 2000 } : each),
    );
    const failing = sized(wall(low)).findings.find(({ id }) => id === 'panel-cables-3')!;
    // P3 reaches from 100 to 2,100 mm; the foot run is at 40.
    expect(failing).toMatchObject({ status: 'fails', value: 4, limit: 0 });
    expect(failing.sentence).toMatch(/outside panel P3, which reaches from 100 mm to 2,100 mm/);
    // At 120 mm it runs inside every panel.
    const inside = sized(wall(low, { wayInset_mm: 120 }));
    expect(inside.findings.some(({ id }) => id.startsWith('panel-cables'))).toBe(false);
  });
});
