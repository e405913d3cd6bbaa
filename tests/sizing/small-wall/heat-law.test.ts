import { describe, expect, it } from 'vitest';
import type { LightAnswer } from '../../../src/answer/light.ts';
import { solveSectionField } from '../../../src/heat/section-field.ts';
import { risesOf } from '../../../src/heat/section-response.ts';
import {
  bandOf,
  type HeatLaw,
  heatLaw,
  riseOf,
  stripTemperature_degC,
} from '../../../src/sizing/heat-law.ts';
import { lampRise_K, loadsOfStrip } from '../../../src/sizing/heat-loads.ts';
import { sectionOfJob } from '../../../src/sizing/section-of-job.ts';
import { granted } from './granted.ts';
import { plainLaw, preparedOf, wallOf } from './small-wall.ts';

/** A law of 2.4 W/m in a room of 27 degC: tape 24 K, strip 18 K, no glue line. */
function lawOf(
  change: Partial<HeatLaw['responses']['tape']> = {},
  accuracy: HeatLaw['accuracy'] = 'careful',
) {
  const law = plainLaw();
  const straight = { power: 1, bend: 0, warm: 1, cold: 1 };
  return {
    ...{ ...law, accuracy, room_degC: 27 },
    rises: { ...law.rises, tape: 24, strip: 18 },
    responses: { ...law.responses, tape: { ...straight, ...change } },
  };
}

describe('a rise at other watts', () => {
  it('goes by the power of its watts over the nominal ones: 24*2^0.8 K at twice them, 24/2^0.8 K at half', () => {
    const law = lawOf({ power: 0.8 });
    expect(riseOf(law, 'tape', 2.4)).toBeCloseTo(24, 12);
    expect(riseOf(law, 'tape', 4.8)).toBeCloseTo(41.78643, 4);
    expect(riseOf(law, 'tape', 1.2)).toBeCloseTo(13.784377, 5);
  });

  it('is none where there is no such place, by its rise or by its response', () => {
    const law = lawOf();
    expect(riseOf(law, 'glueLine', 2.4)).toBeNull();
    expect(riseOf({ ...law, rises: { ...law.rises, tape: null } }, 'tape', 2.4)).toBeNull();
    expect(riseOf({ ...law, responses: { ...law.responses, tape: null } }, 'tape', 2.4)).toBeNull();
  });

  it('stands over the room for the strip: 27 + 18*1.5 = 54 degC at 3.6 W/m', () => {
    expect(stripTemperature_degC(lawOf(), 3.6)).toBeCloseTo(54, 12);
  });
});

describe('the band of a rise of 48 K at 4.8 W/m, the watts from 3.6 to 6', () => {
  const at = { rise_K: 48, watts_per_m: 4.8, ends_W_per_m: { least: 3.6, greatest: 6 } };

  it('takes in the doubts and the watts: 48*0.8*3.6/4.8 and 48*1.2*6/4.8', () => {
    const { least, greatest } = bandOf(lawOf({ warm: 1.2, cold: 0.8 }), 'tape', at);
    expect(least).toBeCloseTo(28.8, 12);
    expect(greatest).toBeCloseTo(72, 12);
  });

  it('bends with shares of the nominal watts: ln 2, ln 2.5 and ln 1.5, each with a tenth of its square', () => {
    // 0.693147 + 0.0480453 = 0.7411925 at 4.8 W/m, 0.916291 + 0.0839589 = 1.0002496 at 6, 0.405465 + 0.0164402 = 0.4219053
    // at 3.6: exp(0.2590571) = 1.295708 and exp(-0.3192872) = 0.726667 of 48 K.
    const { least, greatest } = bandOf(lawOf({ bend: 0.1 }), 'tape', at);
    expect(greatest).toBeCloseTo(62.194, 3);
    expect(least).toBeCloseTo(34.88, 3);
  });

  it('is wider by 1 % and 0.15 K, 0.63 K, without the confirming mesh, and never below the room', () => {
    const quick = lawOf({}, 'quick');
    const { least, greatest } = bandOf(quick, 'tape', at);
    expect(least).toBeCloseTo(36 - 0.63, 12);
    expect(greatest).toBeCloseTo(60 + 0.63, 12);
    // 0.1*0.75 - 0.151 K is below nothing.
    expect(bandOf(quick, 'tape', { ...at, rise_K: 0.1 }).least).toBe(0);
  });

  it('holds a rise below that with no watts, as of a face before a cold wall', () => {
    // 0.2 K below the room unlit, 0.3 K below it lit: the band ends at neither side short of it.
    const { least, greatest } = bandOf(lawOf({ unlit_K: -0.2 }), 'tape', { ...at, rise_K: -0.3 });
    expect(least).toBeLessThanOrEqual(-0.3);
    expect(greatest).toBeGreaterThanOrEqual(-0.3);
  });

  it('is the rise alone where nothing is known of how it answers', () => {
    expect(bandOf(lawOf(), 'glueLine', at)).toEqual({ least: 48, greatest: 48 });
  });
});

describe('the law of a section', () => {
  const light = {
    absorbed: { back: 0.1, sides: 0.2, front: 0.05, reveal: 0.03, sheet: 0.02 },
  } as LightAnswer;

  /** A wall in a room of its own, so that nothing is remembered from another test. */
  function asked(room_degC: number) {
    const { job, products, setOut } = preparedOf(
      wallOf([600, 800], (own) => {
        own.site.room_degC = room_degC;
      }),
    );
    return { section: sectionOfJob(job, products, setOut), strip: products.strip };
  }

  it('is the field at the nominal 2.4 W/m, its rises and what it remarks', () => {
    const { section, strip } = asked(21);
    const law = granted(heatLaw(section, strip, light, 'quick'));
    expect(law).toMatchObject({ accuracy: 'quick', nominal_W_per_m: 2.4 });
    expect(law.room_degC).toBeCloseTo(21, 9);
    const loads = loadsOfStrip(2.4, strip, light);
    const lampRise = { lampRise_K: lampRise_K(strip, loads) };
    const field = solveSectionField(section, loads, { ...lampRise, confirm: false });
    expect(law.rises).toEqual(risesOf(granted(field), 294.15));
    expect(field.ok && field.notes).toEqual(law.notes);
    // The lamp stands over its strip by 2.4 W/m less its light, over 120 lamps, by 40 K/W.
    const light_W_per_m = 250 / 315;
    expect(law.rises.solderPoint! - law.rises.tape!).toBeCloseTo(((2.4 - light_W_per_m) / 120) * 40, 9);
    // Warmer where convection is less and the tape is poor; at more watts warmer, by less than in proportion.
    const { warm, cold, power } = law.responses.strip!;
    expect([warm > 1, cold < 1, power > 0.7, power < 1]).toEqual([true, true, true, true]);
  });

  it('has one mesh more where it is careful, and is not the quick one remembered', () => {
    const { section, strip } = asked(22);
    const [quick, careful] = (['quick', 'careful'] as const).map((accuracy) =>
      granted(heatLaw(section, strip, light, accuracy)),
    );
    expect(careful!.field.meshHistory.length).toBeGreaterThan(quick!.field.meshHistory.length);
    expect([quick!.accuracy, careful!.accuracy]).toEqual(['quick', 'careful']);
    expect(careful!.responses.strip).toEqual(quick!.responses.strip);
  });

  it('solves a section once', () => {
    const { section, strip } = asked(23);
    const [one, same] = [1, 2].map(() => granted(heatLaw(section, strip, light, 'quick')));
    expect(same!.field).toBe(one!.field);
    const other = granted(heatLaw(asked(24).section, strip, light, 'quick'));
    expect(other.field).not.toBe(one!.field);
  });

  it('is refused for a section that cannot be', () => {
    const { section, strip } = asked(20);
    expect(heatLaw({ ...section, slotWidth_m: 0.3 }, strip, light, 'quick')).toMatchObject({
      ok: false,
      issues: [{ code: 'slot-wider-than-pitch' }],
    });
  });
});
