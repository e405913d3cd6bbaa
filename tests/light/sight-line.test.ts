import { describe, expect, it } from 'vitest';
import { slotEdges } from '../../src/light/section.ts';
import { bareLampRange, bareLampSightLines } from '../../src/light/sight-line.ts';
import { opal, plainSection, thickFront } from './sections.ts';

const sections = [
  plainSection,
  { ...plainSection, slotOffset_m: 0.012, reveal: thickFront },
  { ...plainSection, strip: { ...plainSection.strip, offset_m: -0.025 }, reveal: thickFront },
  {
    ...plainSection,
    width_m: 0.05,
    reveal: thickFront,
    strip: { ...plainSection.strip, mount: 'side' as const, offset_m: -0.01 },
  },
];

describe('bare lamps in view', () => {
  it('are where rays from the lamp that clear every depth of the slot arrive', () => {
    for (const section of sections) {
      const { left_m, right_m } = slotEdges(section);
      const { strip, width_m, depth_m, reveal } = section;
      const lamp =
        strip.mount === 'side'
          ? { x: 0, y: depth_m / 2 + strip.offset_m }
          : { x: width_m / 2 + strip.offset_m, y: 0 };
      const clear = (across: number): boolean => {
        const eye = { x: (left_m + right_m) / 2 + across, y: depth_m + reveal.depth_m + 2 };
        return Array.from({ length: 101 }, (_, i) => depth_m + (i / 100) * reveal.depth_m).every((y) => {
          const x = lamp.x + ((y - lamp.y) / (eye.y - lamp.y)) * (eye.x - lamp.x);
          return x > left_m && x < right_m;
        });
      };
      const range = bareLampRange(section, 2);
      for (let across = -6; across <= 6; across += 0.013) {
        expect(clear(across)).toBe(range !== null && across > range.from_m && across < range.to_m);
      }
    }
  });

  it('are hidden by a sheet and by facing away', () => {
    expect(bareLampRange({ ...plainSection, sheet: opal }, 2)).toBeNull();
    const strip = { ...plainSection.strip, mount: 'front' as const, offset_m: 0.02 };
    expect(bareLampRange({ ...plainSection, strip }, 2)).toBeNull();
  });

  const room = { height_m: 1.4, viewingDistance_m: 2, sideways_m: 1 };

  it('depend on the height of the eye for a level slot', () => {
    const up = { ...plainSection, reveal: thickFront, strip: { ...plainSection.strip, offset_m: 0.014 } };
    const lines = bareLampSightLines(up, { ...room, angle_deg: 0 });
    expect(lines.map((line) => [line.posture, line.seen])).toEqual([
      ['standing', true],
      ['sitting', false],
    ]);
    const down = bareLampSightLines(
      { ...up, strip: { ...up.strip, offset_m: -0.014 } },
      { ...room, angle_deg: 0 },
    );
    expect(down.map((line) => line.seen)).toEqual([false, true]);
  });

  it('do not depend on the height of the eye for an upright slot', () => {
    const [standing, sitting] = bareLampSightLines(plainSection, { ...room, angle_deg: 90 });
    expect(standing?.seen).toBe(true);
    expect(sitting?.across?.from_m).toBeCloseTo(standing?.across?.from_m ?? Number.NaN, 9);
  });
});
