import { describe, expect, it } from 'vitest';
import { lightFindings } from '../../../src/findings/light-findings.ts';
import { newZone } from '../../../src/job/zone.ts';
import { isTold, told, type Wall, wall } from './wall.ts';

const at = (id: string, change?: (wall: Wall) => void) => told(lightFindings(wall(change)), id);
const is = (id: string, change?: (wall: Wall) => void) => isTold(lightFindings(wall(change)), id);

/** Some figures of the light, or of its one zone. */
const lit =
  (figures: object) =>
  ({ light }: Wall) => {
    for (const [key, value] of Object.entries(figures))
      Object.assign(key in light ? light : light.zones[0]!, { [key]: value });
  };

const bothOf =
  (...changes: ((wall: Wall) => void)[]) =>
  (made: Wall) => {
    for (const change of changes) change(made);
  };

/** A second channel, so that each has a name and a level of its own. */
const twoChannels = ({ products }: Wall) => {
  const [white] = products.strip.channels;
  products.strip.channels = [
    { ...white!, name: 'cool' },
    { ...white!, name: 'warm', watts_per_m: 6 },
  ];
};

it('a wall in order has these findings of light, and all of them pass', () => {
  expect(lightFindings(wall()).map(({ id, status }) => [id, status])).toEqual([
    ['brightness', 'passes'],
    ['dots', 'passes'],
    ['flicker', 'passes'],
    ['dimming-floor', 'passes'],
  ]);
});

describe('brightness', () => {
  const at_cd = (luminance_cd_per_m2: number, change: (wall: Wall) => void = () => {}) =>
    at('brightness', bothOf(lit({ luminance_cd_per_m2 }), change));

  // Of the 200 cd/m2 wanted nine tenths, 180, are enough, and more than 300 is strip bought for nothing.
  it.each([
    [179, 'fails', -1],
    [180, 'passes', 0],
    [200, 'passes', 20],
    [300, 'passes', 120],
    [301, 'watch', 121],
  ])('of %d cd/m² where 200 are wanted: %s', (luminance, status, margin) => {
    expect(at_cd(luminance)).toMatchObject({
      ...{ status, value: luminance, limit: 180, margin, unit: 'cd/m²' },
      place: { field: 'light.wanted_cd_per_m2' },
    });
  });

  it('says what is reached and what is wanted', () => {
    expect(at_cd(200).sentence).toBe(
      'At the working level of 15 % a slot reaches about 200 cd/m²; 200 cd/m² are wanted.',
    );
    expect(at_cd(190).sentence).toMatch(
      /about 190 cd\/m²; 200 cd\/m² are wanted, and from 180 cd\/m² on the difference goes unseen\.$/,
    );
    expect(at_cd(300).sentence).not.toContain('times as much');
    expect(at_cd(400).sentence).toMatch(/ are wanted\. That is 2\.0 times as much\.$/);
  });

  it('says what full reaches only where even that is not enough', () => {
    const dark = (...neededLevels: number[]) =>
      at_cd(100, lit({ full_cd_per_m2: 150, neededLevels })).sentence;
    expect(dark()).toMatch(/unseen\. At full it reaches 150 cd\/m²\.$/);
    expect(dark(0.3)).not.toContain('At full');
    expect(at_cd(180, lit({ neededLevels: [] })).sentence).not.toContain('At full');
  });

  it('says what is seen', () => {
    expect(at_cd(200, lit({ seen: 'back' })).sentence).toContain(
      ' % the lit back seen through the open slot',
    );
    const through = at_cd(200, ({ light, job }) => {
      light.seen = 'back through the cover';
      job.section.cover = 'frosted acrylic' as typeof job.section.cover;
    });
    expect(through).toMatchObject({ status: 'watch', fields: [] });
    expect(through.sentence).toContain(' % the lit back seen through the cover reaches');
    expect(through.sentence).toContain('The cover, frosted acrylic, does not spread light fully');
  });

  it('through a cover that does not spread light fully fails or is watched as it would otherwise', () => {
    const seen = lit({ seen: 'back through the cover' });
    expect(at_cd(100, seen).status).toBe('fails');
    expect(at_cd(400, seen).status).toBe('watch');
    expect(at_cd(400, seen).fields).toHaveLength(2);
  });

  it('is turned up where that is enough', () => {
    const dark = at_cd(100, lit({ neededLevels: [0.3] }));
    expect(dark.remedies).toEqual([
      { field: 'dimming.levels[1]', sentence: 'Set the working level to 30 %.' },
    ]);
  });

  it('takes more strip and a whiter cavity where it is not', () => {
    const dark = at_cd(100, lit({ neededLevels: [], needed_W_per_m: 18 }));
    expect(dark.fields).toEqual(['strip.entry', 'section.backFinish']);
    expect(dark.advice[0]).toBe('Choose 18.0 W/m of this kind of strip.');
  });

  // Twice as bright as wanted with 10 W/m: 5 W/m would do.
  it('that is too much takes less strip, or a lower level', () => {
    const bright = at_cd(400, lit({ neededLevels: [0.07] }));
    expect(bright.fields).toEqual(['strip.entry', 'dimming.levels[1]']);
    expect(bright.advice[0]).toContain('a strip of 5.0 W/m instead of 10.0 W/m');
    expect(bright.advice[1]).toBe('Set the working level to 7 %.');
    // Both channels together have 16 W/m.
    expect(at_cd(400, bothOf(twoChannels, lit({ neededLevels: [0.1, 0.1] }))).advice[0]).toContain(
      'a strip of 8.0 W/m instead of 16.0 W/m',
    );
  });

  it('names each channel where their levels differ', () => {
    const levels = (working: number[], neededLevels: number[]) =>
      at_cd(100, bothOf(twoChannels, lit({ levels: { full: 1, working, lowest: 0.1 }, neededLevels })));
    const apart = levels([0.2, 0.1], [0.4, 0.2]);
    expect(apart.sentence).toMatch(/^At the working levels of 20 % \(cool\) and 10 % \(warm\) a slot/);
    expect(apart.advice).toEqual(['Set the working levels to 40 % (cool) and 20 % (warm).']);
    const alike = levels([0.2, 0.2], [0.4, 0.4]);
    expect(alike.sentence).toMatch(/^At the working level of 20 % a slot/);
    expect(alike.advice).toEqual(['Set the working levels to 40 % each.']);
  });
});

describe('lamps seen as dots', () => {
  // Hidden below the threshold of the eye, faint to three times it.
  it.each([
    [0.99, 'passes'],
    [1, 'watch'],
    [3, 'watch'],
    [3.01, 'fails'],
  ])('with a ripple of %d times what the eye can just see: %s', (visibility, status) => {
    expect(at('dots', lit({ visibility, ripple: 0.005, threshold: 0.002 }))).toMatchObject({
      ...{ status, value: 0.005, limit: 0.002, margin: -0.003, unit: 'ratio', fields: [] },
      place: { field: 'section.cavity_mm' },
      sentence: 'At the working level, from 2,000 mm away: The LEDs do not show.',
    });
  });

  it('never pass where the lamps themselves are in view', () => {
    const seen = (visibility: number) => at('dots', lit({ visibility, bareLampsSeen: ['sitting'] }));
    expect(seen(0.5)).toMatchObject({
      ...{ status: 'watch', value: null, limit: null, margin: null, place: { field: 'section.cover' } },
    });
    expect(seen(0.5).sentence).toMatch(/^The LEDs do not show\. Cover the slot/);
    expect(seen(2).status).toBe('watch');
    expect(seen(4).status).toBe('fails');
  });
});

describe('glare', () => {
  const at_cd = (luminance_cd_per_m2: number) => lit({ luminance_cd_per_m2 });

  it('is told above 1000 cd/m²', () => {
    expect(is('glare', at_cd(1000))).toBe(false);
    expect(at('glare', at_cd(1001))).toMatchObject({
      ...{ status: 'watch', value: 1001, limit: 1000, margin: -1, unit: 'cd/m²' },
      place: { field: 'light.wanted_cd_per_m2' },
    });
    expect(at('glare', at_cd(1500)).sentence).toMatch(
      /^At the working level of 15 % a slot of about 1,500 cd/,
    );
  });
});

describe('lamps in view', () => {
  const seen =
    (...by: Wall['light']['bareLampsSeen']) =>
    ({ light }: Wall) =>
      void Object.assign(light, { bareLampsSeen: by });

  it('are told by whom they are seen, and through what', () => {
    expect(is('bare-lamps')).toBe(false);
    const open = at(
      'bare-lamps',
      bothOf(seen('standing', 'sitting'), ({ job }) => (job.section.cover = 'open')),
    );
    expect(open).toMatchObject({ status: 'watch', value: null, place: { field: 'section.strip' } });
    expect(open.sentence).toMatch(
      /^Somebody standing or sitting can look through the open slot straight at the LEDs/,
    );
    const covered = at('bare-lamps', seen('sitting')).sentence;
    expect(covered).toMatch(/^Somebody sitting can look through the opal acrylic, which does not/);
  });
});

describe('flicker', () => {
  const at_Hz =
    (pwm_Hz: number | null, ...working: number[]) =>
    ({ job, light }: Wall) => {
      job.dimming.pwm_Hz = pwm_Hz;
      if (working.length > 0) light.zones[0]!.levels.working = working;
    };

  it('is no question without a dimming frequency', () => {
    expect(lightFindings(wall(at_Hz(null))).map(({ id }) => id)).toEqual(['brightness', 'dots']);
  });

  // IEEE 1789: full-depth switching is of low risk above 1250 Hz, without effect above 3000 Hz.
  it.each([
    [1250, 'fails', 0],
    [1251, 'watch', 1],
    [3000, 'watch', 1750],
    [3001, 'passes', 1751],
  ])('at %d Hz: %s', (pwm_Hz, status, margin) => {
    expect(at('flicker', at_Hz(pwm_Hz))).toMatchObject({
      ...{ status, value: pwm_Hz, limit: 1250, margin, unit: 'Hz', place: { field: 'dimming.pwm_Hz' } },
    });
  });

  it('says whether the strip is dimmed, and what to look for', () => {
    expect(at('flicker', at_Hz(4000)).sentence).toBe('The strip is dimmed at 4,000 Hz.');
    expect(at('flicker', bothOf(twoChannels, at_Hz(4000, 1, 0.5))).sentence).toBe(
      'The strip is dimmed at 4,000 Hz.',
    );
    expect(at('flicker', at_Hz(2000, 1)).sentence).toBe(
      'When dimmed, the strip is switched at 2,000 Hz. A dimmer that switches faster than 3,000 Hz is the calm choice.',
    );
  });
});

describe('the lowest level', () => {
  const lowest =
    (level: number | null, inJob: number | null = level) =>
    ({ light, job }: Wall) => {
      light.zones[0]!.levels.lowest = level;
      light.zones[0]!.lowest_cd_per_m2 = 13;
      job.dimming.lowest = inJob;
    };

  it('is no question with nothing lit', () => {
    const ids = lightFindings(wall(lowest(null))).map(({ id }) => id);
    expect(ids).toEqual(['brightness', 'dots', 'flicker']);
  });

  // A pulse of 5 us, 4000 times a second, is 2 % of full; the eye takes it for the root of it, 14 %.
  it('passes from what a common dimmer of the frequency reaches', () => {
    expect(at('dimming-floor', lowest(0.02))).toMatchObject({
      ...{ status: 'passes', value: 0.02, limit: 0.02, margin: 0, unit: 'ratio' },
      place: { field: 'dimming.lowest' },
      sentence:
        'At 4,000 Hz a common dimmer goes down to about 2 % of full, which the eye takes for some 14 %; the lowest level of the job is 2 %, about 13 cd/m².',
    });
  });

  it('is to be watched below', () => {
    const low = at('dimming-floor', lowest(0.01));
    expect(low).toMatchObject({ status: 'watch', value: 0.01, margin: -0.01 });
    expect(low.sentence).toMatch(/ is 1 %, about 13 cd\/m²\. Look for a dimmer that states so low a level/);
  });

  it('is to be watched above the working level', () => {
    expect(at('dimming-floor', lowest(0.15)).status).toBe('passes');
    expect(at('dimming-floor', lowest(0.15)).sentence).toMatch(
      /; the lowest level of the job is 15 %, about/,
    );
    const above = at('dimming-floor', lowest(0.2));
    expect(above).toMatchObject({ status: 'watch', value: 0.2, margin: 0.18 });
    expect(above.sentence).toMatch(
      /; the lowest level of the job, 20 %, lies above its working level: set it lower\.$/,
    );
    const highest = bothOf(
      twoChannels,
      lowest(0.2),
      ({ light }) => (light.zones[0]!.levels.working = [0.1, 0.3]),
    );
    expect(at('dimming-floor', highest).status).toBe('passes');
    expect(at('dimming-floor', highest).sentence).toContain('is 20 %, about 13 cd/m²');
  });

  it('says where the job asks for nothing below full', () => {
    const full = bothOf(lowest(1, null), ({ light }) => (light.zones[0]!.levels.working = [1]));
    expect(at('dimming-floor', full).status).toBe('passes');
    expect(at('dimming-floor', full).sentence).toMatch(/; the job asks for no level below full\.$/);
  });
});

describe('zones with levels of their own', () => {
  /** The middle slot in a zone that wants 100 cd/m² and gets 400; the others want 200 and get that. */
  const zoned = ({ job, light }: Wall) => {
    const own = { levels: [0.3], lowest: 0.01, wanted_cd_per_m2: 100 };
    job.dimming.zones = [
      newZone({ id: 'Z1', name: 'Left', slots: [1] }),
      { ...newZone({ id: 'Z2', name: 'Shelf', slots: [2] }), ...own },
    ];
    const [others] = light.zones;
    const shelf = {
      ...others!,
      ...{ zone: 'Shelf', name: 'Shelf', slots: ['S02'], wanted_cd_per_m2: 100, neededLevels: [0.08] },
      ...{ luminance_cd_per_m2: 400, lowest_cd_per_m2: 13, threshold: 0.0005, visibility: 2 },
      levels: { full: 1 as const, working: [0.3], lowest: 0.01 },
    };
    light.zones = [{ ...others!, name: 'Left, the rest', slots: ['S01', 'S03'] }, shelf];
  };
  const each = (id: string, change: (made: Wall) => void = () => {}) =>
    lightFindings(wall(bothOf(zoned, change))).filter((check) => [id, `${id}-2`].includes(check.id));

  it('are judged one by one, each by its own figures and with its own field', () => {
    // Nine tenths of 200 and of 100 cd/m²; 400 is 310 over 90.
    expect(
      each('brightness').map(({ status, value, limit, margin }) => [status, value, limit, margin]),
    ).toEqual([
      ['passes', 200, 180, 20],
      ['watch', 400, 90, 310],
    ]);
    expect(each('brightness').map(({ place }) => place.field)).toEqual([
      'light.wanted_cd_per_m2',
      'dimming.zones[2].wanted_cd_per_m2',
    ]);
    expect(each('brightness').map(({ title }) => title)).toEqual([
      'Brightness of a slot at the working level, Left, the rest',
      'Brightness of a slot at the working level, Shelf',
    ]);
    expect(each('brightness').map(({ sentence }) => sentence)).toEqual([
      expect.stringMatching(/^Left, the rest: At the working level of 15 % a slot reaches about 200/),
      expect.stringMatching(/^Shelf: At the working level of 30 % a slot reaches about 400 .* 4\.0 times/),
    ]);
  });

  it('are turned down by a field of their own, and take no weaker strip while another zone needs this one', () => {
    expect(each('brightness')[1]!.remedies).toEqual([
      { field: 'dimming.zones[2].levels[1]', sentence: 'Set the working level of Shelf to 8 %.' },
    ]);
    const all = each('brightness', ({ light }) => (light.zones[0]!.luminance_cd_per_m2 = 500));
    // 500 of 200 cd/m² are 2.5 times, 400 of 100 four: a strip of 10/2.5 W/m does for both.
    for (const { remedies } of all) expect(remedies![0]!.sentence).toContain('a strip of 4.0 W/m instead of');
  });

  it('show hot spots, glare and ask for a lowest level each for itself', () => {
    expect(each('dots').map(({ status, limit }) => [status, limit])).toEqual([
      ['passes', 0.002],
      ['watch', 0.0005],
    ]);
    const glaring = each('glare', ({ light }) => (light.zones[1]!.luminance_cd_per_m2 = 1500));
    expect(glaring).toMatchObject([{ value: 1500, place: { field: 'dimming.zones[2].wanted_cd_per_m2' } }]);
    // 5 µs at 4,000 Hz are 2 %: 15 % is above, 1 % below.
    expect(each('dimming-floor').map(({ status, value, place }) => [status, value, place.field])).toEqual([
      ['passes', 0.15, 'dimming.lowest'],
      ['watch', 0.01, 'dimming.zones[2].lowest'],
    ]);
    expect(each('dimming-floor')[1]!.sentence).toContain('the lowest level of Shelf is 1 %, about 13 cd/m²');
    expect(each('flicker')).toHaveLength(1);
  });

  it('have one finding of lamps in view between them, as bad as the worst', () => {
    const seen = each('dots', ({ light }) => {
      light.bareLampsSeen = ['sitting'];
      light.zones[1]!.visibility = 4;
    });
    expect(seen.map(({ status }) => status)).toEqual(['fails']);
  });
});
