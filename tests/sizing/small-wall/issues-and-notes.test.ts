import { describe, expect, it } from 'vitest';
import type { ChannelSolution } from '../../../src/circuit/solution.ts';
import type { Finish } from '../../../src/job/section.ts';
import { undimmed, worstChannel } from '../../../src/sizing/channels.ts';
import { placedInJob } from '../../../src/sizing/job-fields.ts';
import { reflectanceOf, sheetOf } from '../../../src/sizing/light-finishes.ts';
import { limits } from '../../../src/sizing/limits.ts';
import { eachOnce, notesOn } from '../../../src/sizing/notes.ts';

const issue = (code: string, sentence: string, place = {}) => ({ code, place, quantities: {}, sentence });

describe('refusals led to the job document', () => {
  it('name the field to change, beside the place they name themselves', () => {
    const placed = placedInJob([
      issue('slot-wider-than-pitch', 'One.', { slot: 'S01' }),
      issue('of-no-field', 'Two.', { run: 'S02', field: 'drivers.entry' }),
    ]);
    expect(placed.map(({ place }) => place)).toEqual([
      { slot: 'S01', field: 'slots.width_mm' },
      { run: 'S02', field: 'drivers.entry' },
    ]);
  });

  it('are each said once, the first time, in their order', () => {
    const placed = placedInJob([
      issue('a', 'Same.', { run: 'S01' }),
      issue('b', 'Other.'),
      issue('c', 'Same.', { run: 'S02' }),
    ]);
    expect(placed.map(({ code }) => code)).toEqual(['a', 'b']);
  });
});

describe('notes', () => {
  it('name their sheet and stay off the cover unless asked there', () => {
    expect(notesOn('drivers', ['One.'])).toEqual([{ sheet: 'drivers', onCover: false, sentence: 'One.' }]);
    expect(notesOn('section', ['One.'], { onCover: true })[0]!.onCover).toBe(true);
  });

  it('are each said once', () => {
    const notes = [...notesOn('drivers', ['One.', 'Two.']), ...notesOn('section', ['One.'])];
    expect(eachOnce(notes)).toEqual(notesOn('drivers', ['One.', 'Two.']));
  });
});

describe('channels', () => {
  it('are shown without their level, and one that is off as it is', () => {
    expect(undimmed(Float64Array.of(0.1, 0.2), 0.2)).toEqual([0.5, 1]);
    expect(undimmed(Float64Array.of(0, 0), 0)).toEqual([1, 1]);
  });

  it('are judged by the one with the lowest volts, the first of equals', () => {
    const channels = [23, 22, 22, 24].map((lowest_V, i) => ({ id: `ch${i}`, lowest_V }) as ChannelSolution);
    expect(worstChannel(channels).id).toBe('ch1');
  });
});

describe('finishes of the job document', () => {
  it('are those of the light tables: natural aluminium 0.7, light opal 0.7 through; open is no sheet', () => {
    expect(reflectanceOf('natural anodised aluminium')).toBe(0.7);
    expect(sheetOf('light opal acrylic')).toMatchObject({ transmittance: 0.7, reflectance: 0.22 });
    expect(sheetOf('open')).toBeNull();
    expect(() => reflectanceOf('velvet' as Finish)).toThrow(RangeError);
  });
});

describe('limits of the checks', () => {
  it('say how a fall and a difference look, from when light glares, and how low a usual dimmer goes', () => {
    expect(limits.fall.looks(0.05)).toMatch(/same from end to end/);
    expect(limits.fall.looks(0.4)).toMatch(/plainly darker/);
    expect(limits.neighbour.looks(0.05)).toMatch(/equally bright/);
    expect(limits.neighbour.looks(0.4)).toMatch(/plainly brighter/);
    expect(limits.glareFrom_cd_per_m2).toBe(1000);
    // 5 us of 4 kHz are 0.02; of 1 Hz the step of 12 bits is more, 1/4096.
    expect(limits.lowestDimLevel(4000)).toBeCloseTo(0.02, 12);
    expect(limits.lowestDimLevel(1)).toBe(1 / 4096);
    expect(limits.fall).toMatchObject({ unseen: 0.1, fine: 0.2, noticed: 0.3 });
  });
});
