import { describe, expect, it } from 'vitest';
import { newJob } from '../../src/job/new-job.ts';
import type { Slots } from '../../src/job/slots.ts';
import { slotLines } from '../../src/set-out/slot-lines.ts';

const panel = { width_mm: 2000, height_mm: 1000 };
const generator = { ...(newJob().slots as Extract<Slots, { from: 'generator' }>), width_mm: 20 };

function lines(slots: Slots, on = panel) {
  const result = slotLines({ panel: on, panels: [], openings: [], slots });
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value;
}

const codes = (slots: Slots, on = panel): string[] => {
  const result = slotLines({ panel: on, panels: [], openings: [], slots });
  return result.ok ? [] : result.issues.map((issue) => issue.code);
};

describe('slots from the generator', () => {
  it('by pitch: as many as fit between the margins, centred', () => {
    const slots = lines({
      ...generator,
      left_mm: 100,
      right_mm: 100,
      spacing: { by: 'pitch', pitch_mm: 250 },
    });
    expect(slots).toHaveLength(8);
    expect(slots[0]!.x0_mm + slots[7]!.x0_mm).toBeCloseTo(2000, 9);
  });

  it('by count: the outer slots touch the margins and the spaces are equal', () => {
    const slots = lines({ ...generator, left_mm: 100, right_mm: 300, spacing: { by: 'count', count: 5 } });
    expect(slots[0]!.x0_mm - 10).toBeCloseTo(100, 9);
    expect(slots[4]!.x0_mm + 10).toBeCloseTo(1700, 9);
    const gaps = slots.slice(1).map((slot, i) => slot.x0_mm - slots[i]!.x0_mm);
    for (const gap of gaps) expect(gap).toBeCloseTo(gaps[0]!, 9);
  });

  it('turned by a quarter, level slots stand where upright ones did', () => {
    const square = { width_mm: 1000, height_mm: 1000 };
    const upright = lines({ ...generator, left_mm: 70, right_mm: 90, foot_mm: 110, head_mm: 130 }, square);
    const level = lines(
      { ...generator, axis: 'level', left_mm: 110, right_mm: 130, foot_mm: 70, head_mm: 90 },
      square,
    );
    expect(level.map((s) => [s.y0_mm, s.x0_mm, s.x1_mm])).toEqual(
      upright.map((s) => [s.x0_mm, s.y0_mm, s.y1_mm]),
    );
  });
});

describe('slots from a list', () => {
  it.each([
    ['foot', 300, 500],
    ['middle', 200, 400],
    ['head', 100, 300],
  ] as const)('aligned at the %s', (align, y0, y1) => {
    const [slot] = lines({
      ...{ from: 'lengths', width_mm: 20, first_mm: 100, pitch_mm: 100 },
      ...{ level_mm: 300, align, lengths_mm: [200] },
    } as Slots);
    expect([slot!.y0_mm, slot!.y1_mm]).toEqual([y0, y1]);
  });
});

const drawn = (...segments: (readonly [number, number, number, number])[]): Slots => ({
  ...{ from: 'segments', width_mm: 20 },
  segments: segments.map(([x0_mm, y0_mm, x1_mm, y1_mm]) => ({ x0_mm, y0_mm, x1_mm, y1_mm })),
});

describe('slots as drawn', () => {
  it('keep their number, their direction and their length', () => {
    // 300 across and 400 down are 500 mm.
    expect(lines(drawn([900, 100, 900, 700], [200, 900, 500, 500]))).toEqual([
      {
        id: 'S02',
        number: 2,
        panel: null,
        width_mm: 20,
        x0_mm: 200,
        y0_mm: 900,
        x1_mm: 500,
        y1_mm: 500,
        length_mm: 500,
      },
      {
        id: 'S01',
        number: 1,
        panel: null,
        width_mm: 20,
        x0_mm: 900,
        y0_mm: 100,
        x1_mm: 900,
        y1_mm: 700,
        length_mm: 600,
      },
    ]);
  });

  it.each([
    // Rounding of a ten-millionth of a millimetre is nobody's mistake; a millimetre is.
    ['left', [-1e-7, 500, 900, 500], [-1, 500, 900, 500]],
    ['right', [900, 500, 2000 + 1e-7, 500], [900, 500, 2001, 500]],
    ['lower', [500, -1e-7, 500, 900], [500, -1, 500, 900]],
    ['upper', [500, 100, 500, 1000 + 1e-7], [500, 100, 500, 1001]],
  ] as const)('may end on the %s edge of the panel, and not past it', (_, on, past) => {
    expect(codes(drawn(on))).toEqual([]);
    expect(codes(drawn([past[2], past[3], past[0], past[1]]))).toEqual(['slot-outside-panel']);
    expect(codes(drawn(past))).toEqual(['slot-outside-panel']);
  });
});

describe('refusals', () => {
  it('name the field and the figures a maker has to look at', () => {
    const issue = (slots: Slots) => {
      const result = slotLines({ panel, panels: [], openings: [], slots });
      return result.ok ? undefined : result.issues[0];
    };
    const figures = { panelWidth_mm: 2000, panelHeight_mm: 1000 };
    expect(issue({ ...generator, left_mm: 2000 })).toMatchObject({
      ...{ code: 'no-slot-fits', place: { field: 'slots' }, quantities: figures },
    });
    expect(issue(drawn([500, 100, 500, 1100]))).toMatchObject({
      ...{ code: 'slot-outside-panel', place: { slot: 'S01', field: 'slots' }, quantities: figures },
    });
    const dense = drawn(...Array.from({ length: 401 }, (_, i) => [i, 0, i, 900] as const));
    expect(issue(dense)).toMatchObject({
      ...{ code: 'too-many-slots', place: { field: 'slots.spacing' }, quantities: { mostSlots: 400 } },
    });
  });

  it('margins that leave nothing', () => {
    expect(codes({ ...generator, left_mm: 1000, right_mm: 1000 })).toEqual(['no-slot-fits']);
    expect(codes({ ...generator, foot_mm: 600, head_mm: 600 })).toEqual(['no-slot-fits']);
    // Margins that meet, and level slots whose side margins pass each other.
    expect(codes({ ...generator, foot_mm: 500, head_mm: 500 })).toEqual(['no-slot-fits']);
    expect(codes({ ...generator, axis: 'level', left_mm: 1100, right_mm: 1100 })).toEqual(['no-slot-fits']);
  });

  it('slots that run into each other', () => {
    expect(codes({ ...generator, spacing: { by: 'pitch', pitch_mm: 15 } })).toEqual(['slots-overlap']);
  });

  it('more slots than a job holds', () => {
    const wide = { width_mm: 30000, height_mm: 1000 };
    expect(codes({ ...generator, width_mm: 5, spacing: { by: 'pitch', pitch_mm: 10 } }, wide)).toEqual([
      'too-many-slots',
    ]);
  });

  it('every slot off the panel, by name', () => {
    const off: Slots = {
      from: 'segments',
      width_mm: 20,
      segments: [
        { x0_mm: 100, y0_mm: 100, x1_mm: 100, y1_mm: 900 },
        { x0_mm: 300, y0_mm: 100, x1_mm: 300, y1_mm: 1100 },
        { x0_mm: 2500, y0_mm: 100, x1_mm: 500, y1_mm: 900 },
      ],
    };
    const result = slotLines({ panel, panels: [], openings: [], slots: off });
    expect(result.ok ? [] : result.issues.map((issue) => issue.place.slot)).toEqual(['S02', 'S03']);
  });
});
