import { describe, expect, it } from 'vitest';
import type { SectionDescription } from '../../src/heat/section-description.ts';
import { solveSectionField } from '../../src/heat/section-field.ts';
import { panel } from './sections.ts';

/** Strip and watts of an open slot of some width. */
function slot(slotWidth_m: number) {
  const section: SectionDescription = { ...panel, sheet: null, slotWidth_m };
  const solved = solveSectionField(section, { strip_W_per_m: 7 }, { lampRise_K: 0, confirm: false });
  if (!solved.ok) throw new Error(JSON.stringify(solved.issues));
  const { temperatures, watts_W_per_m } = solved.value;
  return {
    strip_K: temperatures.strip.mean_K,
    face_K: temperatures.roomFace.temperature_K,
    watts: watts_W_per_m,
  };
}

describe('jambs of a narrow slot, which the room washed like those of a wide one', () => {
  it('cool the strip no more than the slot is wide: half a millimetre by less than half a kelvin', () => {
    expect(slot(0).strip_K - slot(0.0005).strip_K).toBeLessThan(0.5);
    expect(slot(0).strip_K - slot(0.0001).strip_K).toBeLessThan(0.1);
  });

  it('give off no more than the mouth of the slot would at the temperature of their warmest point', () => {
    for (const slotWidth_m of [0.0005, 0.001, 0.003, 0.01]) {
      const { watts, face_K } = slot(slotWidth_m);
      expect(watts.jambs).toBeGreaterThan(0);
      expect(watts.jambs).toBeLessThanOrEqual((slotWidth_m / 0.13) * (face_K - panel.room_K));
    }
  });

  it('have the film of the room, 1/0.13 W/(m2K), where the slot is as wide as both are deep', () => {
    // Two jambs of the front's depth: from there on the film is the room's, and the watts follow their temperature only.
    const depth_m = panel.front.thickness_m;
    const [just, wider] = [slot(2 * depth_m), slot(3 * depth_m)];
    expect(wider.watts.jambs / just.watts.jambs).toBeLessThan(1.05);
  });
});
