import { describe, expect, it } from 'vitest';
import { newJob } from '../../src/job/new-job.ts';
import { outlineOf, type Panel, withOnePanelMore } from '../../src/job/panels.ts';
import { resolveProducts } from '../../src/job/resolve.ts';
import type { Slots } from '../../src/job/slots.ts';
import { stripCatalogue } from '../../src/job/strip-catalogue.ts';
import { sectionPitch_mm } from '../../src/set-out/pitch.ts';
import { setOutJob } from '../../src/set-out/set-out.ts';
import { slotLines } from '../../src/set-out/slot-lines.ts';
import { randomOf, whole } from '../fuzz/random.ts';

const strip = stripCatalogue.find(({ nominal_V }) => nominal_V === 24)!;

const panel = (id: string, width_mm: number, change: Partial<Panel> = {}): Panel => ({
  ...{ id, name: '', width_mm, height_mm: 2400, raised_mm: 0, gap_mm: 5, joint: 'in line', slotCount: null },
  ...change,
});

/** Evenly spaced, 20 mm wide, 100 mm from every edge. */
const even = newJob().slots as Extract<Slots, { from: 'generator' }>;

function wall(panels: Panel[], slots: Slots = even) {
  return { ...newJob(), panel: outlineOf(panels), panels, slots };
}

function lines(job: ReturnType<typeof wall>) {
  const result = slotLines(job);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value;
}

function refusal(job: ReturnType<typeof wall>) {
  const result = slotLines(job);
  return result.ok ? [] : result.issues.map(({ code, sentence }) => [code, sentence]);
}

const setOut = (job: ReturnType<typeof wall>) => {
  const result = setOutJob(job, strip);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value;
};

describe('slots of several panels', () => {
  it('are evenly spaced in each panel, with numbers of their own', () => {
    const count = { ...even, spacing: { by: 'count', count: 3 } as const };
    const job = wall(
      [panel('P1', 820), panel('P2', 620, { slotCount: 2 }), panel('P3', 820, { slotCount: 0 })],
      count,
    );
    // P1: centres from 110 to 710; P2 begins at 825: from 935 to 1,335; P3 is plain. 820 + 5 + 620 + 5 + 820 = 2,270.
    expect(job.panel).toEqual({ width_mm: 2270, height_mm: 2400 });
    expect(lines(job).map(({ id, panel: of, x0_mm }) => [id, of, x0_mm])).toEqual([
      ['S01', 'P1', 110],
      ['S02', 'P1', 410],
      ['S03', 'P1', 710],
      ['S04', 'P2', 935],
      ['S05', 'P2', 1335],
    ]);
  });

  it('stand between the edges of their own panel, however high that stands', () => {
    const job = wall([panel('P1', 600), panel('P2', 600, { raised_mm: 900, height_mm: 1200 })]);
    const second = lines(job).find(({ panel: of }) => of === 'P2')!;
    // From 900 + 100 up to 900 + 1,200 - 100.
    expect([second.y0_mm, second.y1_mm]).toEqual([1000, 2000]);
  });

  it('of one panel as large as the wall are those of the wall without panels', () => {
    const plain = newJob();
    const one = wall([panel('P1', 2400, { gap_mm: 77, joint: 'inner corner' })]);
    const [without, within] = [slotLines(plain), slotLines(one)];
    expect(without.ok && within.ok && within.value).toEqual(
      without.ok && without.value.map((slot) => ({ ...slot, panel: 'P1' })),
    );
  });

  it('never cross a gap, nor lie in one, nor run past an edge of their panel', () => {
    const drawn = (x0_mm: number, y0_mm: number, x1_mm: number, y1_mm: number): Slots => ({
      ...{ from: 'segments', width_mm: 20, segments: [{ x0_mm, y0_mm, x1_mm, y1_mm }] },
    });
    const panels = [panel('P1', 1000), panel('P2', 1000, { gap_mm: 50, height_mm: 2000 })];
    expect(refusal(wall(panels, drawn(200, 500, 1500, 500)))).toEqual([
      ['slot-outside-panel', expect.stringMatching(/S01 runs from panel P1 to panel P2/)],
    ]);
    expect(refusal(wall(panels, drawn(1025, 500, 1025, 900)))).toEqual([
      ['slot-outside-panel', expect.stringMatching(/in no panel/)],
    ]);
    // P2 ends at 2,000 mm, the wall at 2,400.
    expect(refusal(wall(panels, drawn(1500, 500, 1500, 2001)))).toEqual([
      ['slot-outside-panel', expect.stringMatching(/past the edge of panel P2/)],
    ]);
    expect(refusal(wall(panels, drawn(1500, 500, 1500, 2000)))).toEqual([]);
  });

  it('are refused by the mark of a panel that has no room, unless it is to have none', () => {
    // Margins of 100 mm and a slot of 20 mm need 220.
    expect(refusal(wall([panel('P1', 600), panel('P2', 219)]))).toEqual([
      ['no-slot-fits', expect.stringMatching(/in panel P2/)],
    ]);
    expect(refusal(wall([panel('P1', 600), panel('P2', 219, { slotCount: 0 })]))).toEqual([]);
    expect(refusal(wall([panel('P1', 600, { slotCount: 0 })]))).toEqual([
      ['no-slot-fits', expect.stringMatching(/No panel/)],
    ]);
  });
});

describe('who lies beside whom in several panels', () => {
  const count = { ...even, left_mm: 50, right_mm: 50, spacing: { by: 'count', count: 3 } as const };
  const pairs = (job: ReturnType<typeof wall>) =>
    setOut(job)
      .neighbours.filter(({ side }) => side === 'right')
      .map(({ slot, beside }) => `${slot} ${beside}`);

  it('goes on across a gap in line, and ends at a corner', () => {
    const inLine = pairs(wall([panel('P1', 720), panel('P2', 720)], count));
    expect(inLine).toEqual(['S01 S02', 'S02 S03', 'S03 S04', 'S04 S05', 'S05 S06']);
    for (const joint of ['inner corner', 'outer corner'] as const)
      expect(pairs(wall([panel('P1', 720), panel('P2', 720, { joint })], count))).toEqual(
        inLine.filter((pair) => pair !== 'S03 S04'),
      );
  });

  it('gives the section the tightest pitch within a panel, since a cavity ends with it', () => {
    // Within: (720 - 2 x 50 - 20) / 2 = 300. Across the gap of 5: 60 + 5 + 60 = 125.
    const job = wall([panel('P1', 720), panel('P2', 720)], count);
    expect(setOut(job).neighbours.some(({ fromDistance_mm }) => Math.abs(fromDistance_mm - 125) < 1e-9)).toBe(
      true,
    );
    expect(sectionPitch_mm(setOut(job), job)).toBeCloseTo(300, 9);
    // A slot alone has its panel to itself.
    const single = wall([panel('P1', 720), panel('P2', 240, { slotCount: 1 })], count);
    expect(sectionPitch_mm(setOut(single), single)).toBeCloseTo(240, 9);
  });
});

describe('the wall of panels', () => {
  it('is as large as they are, or refused', () => {
    const panels = [panel('P1', 1000), panel('P2', 800, { gap_mm: 20, raised_mm: 100, height_mm: 2500 })];
    expect(outlineOf(panels)).toEqual({ width_mm: 1820, height_mm: 2600 });
    const wrong = resolveProducts({ ...wall(panels), panel: { width_mm: 1800, height_mm: 2600 } });
    expect(wrong.ok ? [] : wrong.issues.map(({ code }) => code)).toEqual(['panels-and-wall-differ']);
    expect(resolveProducts(wall(panels)).ok).toBe(true);
  });

  it('refuses two panels of one mark', () => {
    const twice = resolveProducts(wall([panel('A', 500), panel('A', 500)]));
    expect(twice.ok ? [] : twice.issues.map(({ code, place }) => [code, place.field])).toEqual([
      ['said-twice', 'panels[2].id'],
    ]);
  });

  it('begins with two halves of the wall there was, as wide with their gap', () => {
    const two = withOnePanelMore({ panel: { width_mm: 2400, height_mm: 2300 }, panels: [] });
    expect(outlineOf(two)).toEqual({ width_mm: 2400, height_mm: 2300 });
    const three = withOnePanelMore({ panel: outlineOf(two), panels: two });
    expect(three.map(({ id }) => id)).toEqual(['P1', 'P2', 'P3']);
  });
});

/** The wall seen in a mirror: the last panel first, each gap and corner before the panel it now comes before. */
function mirrored(job: ReturnType<typeof wall>): ReturnType<typeof wall> {
  const panels = job.panels.toReversed().map((each, k, all) => {
    const after = k === 0 ? each : all[k - 1]!;
    return { ...each, gap_mm: after.gap_mm, joint: after.joint };
  });
  return { ...job, panels };
}

it('in the mirror has the mirrored slots, the same neighbours and the same pitch', () => {
  for (let seed = 0; seed < 60; seed++) {
    const random = randomOf(seed, 7);
    const panels = Array.from({ length: whole(random, 1, 5) }, (_, i) =>
      panel(`P${i + 1}`, whole(random, 250, 900), {
        gap_mm: whole(random, 0, 40),
        joint: (['in line', 'inner corner', 'outer corner'] as const)[whole(random, 0, 2)]!,
        slotCount: random() < 0.5 ? null : whole(random, 1, 4),
        raised_mm: whole(random, 0, 300),
      }),
    );
    const job = wall(panels);
    const [one, other] = [setOut(job), setOut(mirrored(job))];
    const places = (x: (x_mm: number) => number, of: typeof one) =>
      of.slots.map((slot) => [slot.panel, x(slot.x0_mm).toFixed(6), slot.y0_mm, slot.y1_mm].join(' ')).sort();
    expect(places((x) => job.panel.width_mm - x, other)).toEqual(places((x) => x, one));
    expect(other.neighbours).toHaveLength(one.neighbours.length);
    expect(sectionPitch_mm(other, mirrored(job))).toBeCloseTo(sectionPitch_mm(one, job), 6);
    expect(other.strip_m).toBeCloseTo(one.strip_m, 9);
  }
});
