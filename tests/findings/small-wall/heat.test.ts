import { describe, expect, it } from 'vitest';
import { heatFindings } from '../../../src/findings/heat-findings.ts';
import { limitAt, temperature, told, type Wall, wall } from './wall.ts';

const all = (change?: (wall: Wall) => void) => heatFindings(wall(change));
const at = (id: string, change?: (wall: Wall) => void) => told(all(change), id);

type Temperature = ReturnType<typeof temperature>;

const warm =
  (...temperatures: Temperature[]) =>
  ({ heat }: Wall) =>
    void Object.assign(heat, { temperatures });

/** A temperature that its warm end brings so far, 10 K below it and 20 K below. */
const upTo = (id: string, high_degC: number, ...limits: Parameters<typeof limitAt>[]) =>
  temperature(id, [high_degC - 20, high_degC - 10, high_degC], ...limits.map((limit) => limitAt(...limit)));

const bothOf =
  (...changes: ((wall: Wall) => void)[]) =>
  (made: Wall) => {
    for (const change of changes) change(made);
  };

it('a wall in order has these findings of heat, none of them against it', () => {
  expect(all().map(({ id, status, remedies }) => [id, status, remedies ?? []])).toEqual([
    ['heat-solder', 'passes', []],
    ['heat-timber', 'passes', []],
    ['heat-glue', 'passes', []],
    ['heat-left', 'note', []],
    ['life', 'note', []],
    ['depth', 'passes', []],
  ]);
});

describe('a temperature', () => {
  // About 50 degC, between 45 and 60, with a limit of 75.
  it('is held against its limit by the warm end of its band', () => {
    expect(at('heat-solder')).toMatchObject({
      ...{ value: 60, limit: 75, margin: 15, unit: '°C', basis: 'the limit of 75', title: 'The solder' },
      place: { field: 'section.cavity_mm' },
      sentence: 'About 50 °C, calculated between 45 °C and 60 °C; the limit is 75 °C.',
    });
  });

  it('has no band to speak of where its ends are the same once rounded', () => {
    const narrow = temperature('face', [34.6, 35, 35.4], limitAt(60, 'breach'));
    expect(at('heat-face', warm(narrow)).sentence).toBe('About 35 °C; the limit is 60 °C.');
  });

  it('without a limit is not told', () => {
    expect(all(warm(temperature('bare', [40, 50, 60]))).map(({ id }) => id)).toEqual([
      ...['heat-left', 'life', 'depth'],
    ]);
  });

  it.each([
    ['caution', 60, 'passes', 0],
    ['caution', 60.2, 'watch', -0.2],
    ['refuse', 60, 'passes', 0],
    ['refuse', 60.2, 'fails', -0.2],
    ['breach', 60.2, 'fails', -0.2],
  ] as const)('with a limit of 60 °C that is a %s, up to %d °C: %s', (beyond, high_degC, status, margin) => {
    const told = at('heat-timber', warm(upTo('timber', high_degC, [60, beyond])));
    expect(told).toMatchObject({ status, value: high_degC, limit: 60, margin });
    if (status !== 'passes') expect(told.sentence).toContain('and 60.2 °C; the limit is 60.0 °C.');
  });

  describe('with several limits', () => {
    const others = (...[high, ...limits]: [number, ...Parameters<typeof limitAt>[]]) =>
      at('heat-timber', warm(upTo('timber', high, ...limits))).sentence.replace(
        /^.*?; the limit/,
        'The limit',
      );

    it('says which of the others are passed as well and which are further off', () => {
      const three = [
        [60, 'caution'],
        [77, 'refuse'],
        [90, 'breach'],
      ] as const;
      const [caution, refuse, breach] = three.map((limit) => [...limit] as Parameters<typeof limitAt>);
      expect(others(50, caution!, refuse!, breach!)).toBe(
        'The limit is 60 °C. Of the other limits here 77 °C and 90 °C are further off.',
      );
      expect(others(80, refuse!, caution!, breach!)).toBe(
        'The limit is 77 °C. Of the other limits here 60 °C is passed as well, and 90 °C is further off.',
      );
      expect(others(95, breach!, caution!, refuse!)).toBe(
        'The limit is 90 °C. Of the other limits here 60 °C and 77 °C are passed as well.',
      );
      expect(others(50, caution!)).toBe('The limit is 60 °C.');
    });

    it('counts one that is just reached among those further off', () => {
      expect(others(77, [60, 'caution'], [77, 'refuse'])).toContain('77 °C is further off');
    });
  });
});

describe('what helps against heat', () => {
  const glue: Parameters<typeof limitAt> = [50, 'caution', 'Use a glue with a heat class.'];

  it('is what helps against that limit alone, and then what cools the build-up', () => {
    const over = at('heat-glue', warm(upTo('glue', 55, glue)));
    expect(over.fields.slice(0, 2)).toEqual([null, 'strip.entry']);
    expect(over.advice[0]).toBe('Use a glue with a heat class.');
    expect(over.place.field).toBe('strip.entry');
    expect(over.sentence).not.toContain('What cools');
  });

  it('stands with the one furthest over, to which the others point', () => {
    const change = warm(
      upTo('solder', 78, [75, 'breach']),
      upTo('timber', 85, [77, 'refuse']),
      upTo('glue', 45, glue),
    );
    expect(at('heat-timber', change).fields[0]).toBe('strip.entry');
    const solder = at('heat-solder', change);
    expect(solder).toMatchObject({ fields: [], place: { field: 'strip.entry' } });
    expect(solder.sentence).toMatch(/ What cools the build-up stands with “The timber”\.$/);
    const passed = at('heat-glue', change);
    expect(passed).toMatchObject({ fields: [], place: { field: 'section.cavity_mm' } });
    expect(passed.sentence).not.toContain('What cools');
  });

  // The glue is 15 K over what calls for caution, the solder point 1 K over what is refused: that one is graver.
  it('stands with one that fails before one that is to be watched, however far over', () => {
    const change = warm(upTo('glue', 65, glue), upTo('solder', 76, [75, 'breach']));
    expect(at('heat-solder', change).fields[0]).toBe('strip.entry');
    expect(at('heat-glue', change)).toMatchObject({ status: 'watch', fields: [null] });
    expect(at('heat-glue', change).sentence).toContain('stands with “The solder”.');
  });

  it('stands with the furthest over of those to be watched where none fails', () => {
    const change = warm(upTo('glue', 55, glue), upTo('timber', 70, [60, 'caution']));
    expect(at('heat-timber', change).fields[0]).toBe('strip.entry');
    expect(at('heat-glue', change).fields).toEqual([null]);
  });
});

describe('temperatures that are not known', () => {
  const unknown = bothOf(
    warm(
      upTo('solder', 76, [75, 'breach']),
      upTo('timber', 50, [60, 'caution']),
      upTo('glue', 55, [50, 'caution']),
    ),
    ({ heat }) => (heat.unknown = 'A level slot is not known.'),
  );

  it('are to be watched without a number', () => {
    for (const id of ['heat-timber', 'heat-glue'])
      expect(at(id, unknown)).toMatchObject({ status: 'watch', value: null, margin: null });
    expect(at('heat-timber', unknown).sentence).toMatch(
      /^Not known, as said of “The solder”\. As an upright slot it would be: About 40 °C/,
    );
  });

  it('fail where they would as an upright slot', () => {
    const failed = at('heat-solder', unknown);
    expect(failed).toMatchObject({ status: 'fails', value: 76, limit: 75, margin: -1 });
    expect(failed.sentence).toMatch(/^About 66 °C.* A level slot is not known\.$/);
  });

  it('leave depth and notes as they are', () => {
    expect(at('depth', unknown).status).toBe('passes');
    expect(at('heat-left', unknown).value).toBe(8);
  });
});

describe('what cools a build-up', () => {
  const cooling = (change: (wall: Wall) => void = () => {}) =>
    at('heat-solder', bothOf(warm(upTo('solder', 80, [75, 'breach'])), change));
  const carrier = 'section.carrier';

  // Light for what is wanted takes 1.5 W/m where the strip has 10; the bay is 300 - 60 = 240 mm.
  it('is less strip, a carrier, an open slot, a wall behind, and last a limited dimmer', () => {
    expect(cooling().fields).toEqual([
      ...['strip.entry', carrier, 'section.cover', 'section.behind', 'dimming.sizeFor'],
    ]);
    expect(cooling().advice[0]).toContain('1.5 W/m of this kind would give');
    expect(cooling().advice[0]).toContain('this strip has 10.0 W/m');
    expect(cooling().advice.at(-1)).toContain('limit the dimmer to 15 % for good');
  });

  it('leaves out what is done already', () => {
    const done = cooling(({ job }) => {
      Object.assign(job.section, { carrier: 'flat aluminium', carrierWidth_mm: 240 });
      Object.assign(job.section, { cover: 'open', behind: 'inner wall' });
      job.dimming.sizeFor = 'levels';
    });
    expect(done.fields).toEqual(['strip.entry']);
  });

  // 0.95 of 10 W/m is 9.5 W/m: less than that is worth naming.
  it('names the watts that would do where they are a twentieth less', () => {
    const watts = (needed_W_per_m: number) =>
      cooling(({ light }) => (light.zones[0]!.needed_W_per_m = needed_W_per_m)).advice[0];
    expect(watts(9.4)).toContain('per metre: 9.4 W/m of this kind');
    expect(watts(9.5)).toContain('fewer watts per metre than 10.0 W/m: one with more lumens');
  });

  it('counts the watts of all channels', () => {
    const two = cooling(({ products }) => {
      const [white] = products.strip.channels;
      products.strip.channels = [white!, { ...white!, name: 'warm', watts_per_m: 4 }];
    });
    expect(two.advice[0]).toContain('this strip has 14.0 W/m');
  });

  it('proposes a carrier where the bay is wider than the strip of 10 mm', () => {
    const bay = (mm: number) => cooling(({ section }) => (section.pitch_mm = 60 + mm)).fields;
    expect(bay(10.5)).toContain(carrier);
    expect(bay(10)).toEqual(['strip.entry', 'section.cover', 'section.behind', 'dimming.sizeFor']);
  });

  // A carrier of 2 mm wants a cavity of more than twice that.
  it('proposes a carrier where the cavity is deep enough for one', () => {
    const cavity = (mm: number) => cooling(({ job }) => (job.section.cavity_mm = mm)).fields;
    expect(cavity(4.5)).toContain(carrier);
    expect(cavity(4)).not.toContain(carrier);
  });

  it('measures a strip at the side against the depth of the cavity', () => {
    const cavity = (mm: number) =>
      cooling(({ job }) => Object.assign(job.section, { strip: 'side', cavity_mm: mm })).fields;
    expect(cavity(10.5)).toContain(carrier);
    expect(cavity(10)).not.toContain(carrier);
  });

  it('proposes a wider carrier from 10 mm of room on', () => {
    const wide = (carrierWidth_mm: number) =>
      cooling(({ job }) => Object.assign(job.section, { carrier: 'flat aluminium', carrierWidth_mm }));
    expect(wide(230).fields[1]).toBe('section.carrierWidth_mm');
    expect(wide(230).advice[1]).toContain('it is 230 mm wide in a bay of 240 mm');
    expect(wide(231).fields).not.toContain('section.carrierWidth_mm');
  });

  it('limits the dimmer to the highest level, where that is below full', () => {
    const dimmed = (...levels: number[]) => cooling(({ light }) => (light.zones[0]!.levels.working = levels));
    expect(dimmed(0.2, 0.5).advice.at(-1)).toContain('to 50 % for good');
    expect(dimmed(0.2, 1).fields).not.toContain('dimming.sizeFor');
  });
});

describe('heat left in the build-up', () => {
  // 8 of 10 W/m stay; a quarter of the light gets out.
  it('is told in watts and as a share', () => {
    expect(at('heat-left')).toMatchObject({
      ...{ value: 8, limit: null, margin: null, unit: 'W/m', place: { field: 'strip.entry' } },
      sentence:
        'Of 10.0 W/m electrical, 8.0 W/m (80 %) stay as heat; 25 % of the light gets out of the slot.',
    });
  });

  it('is no share of nothing', () => {
    const dark = at('heat-left', ({ heat }) => Object.assign(heat, { strip_W_per_m: 0, heat_W_per_m: 0 }));
    expect(dark.sentence).toContain('Of 0.0 W/m electrical, 0.0 W/m (0.0 %) stay');
  });
});

describe('lumens for a watt', () => {
  const given =
    (...lumens: number[]) =>
    (made: Wall) => {
      const [white] = made.products.strip.channels;
      made.products.strip.channels = lumens.map((lumens_per_m, i) => ({
        ...{ ...white!, name: `channel ${i + 1}`, lumens_per_m },
      }));
    };

  // With 10 W/m, 2000 lm/m are the 200 lm/W that the best strips give.
  it('are worth a second look above 200', () => {
    expect(all(given(2000)).map(({ id }) => id)).not.toContain('strip-efficacy');
    expect(at('strip-efficacy', given(1900, 2010, 500))).toMatchObject({
      ...{ status: 'watch', value: 201, limit: 200, margin: -1, unit: 'lm/W' },
      place: { field: 'strip.data.channels[2].lumens_per_m' },
    });
    expect(at('strip-efficacy', given(1900, 2010, 500)).sentence).toMatch(
      /^Channel "channel 2" is to give 201 lm for each watt/,
    );
  });
});

describe('life', () => {
  it('is passed on with its hours', () => {
    expect(at('life')).toMatchObject({
      ...{ value: 50_000, limit: null, margin: null, unit: 'h', sentence: 'At least 50,000 h.' },
      place: { field: 'strip.lifeTests' },
    });
  });
});

describe('depth', () => {
  const available = (mm: number) => at('depth', ({ section }) => (section.available_mm = mm));

  // 40 mm with a tolerance of 1.5 mm are 41.5 mm, of 45.
  it('passes where the build-up with its tolerance goes in', () => {
    expect(at('depth')).toMatchObject({
      ...{ question: 'depth', value: 41.5, limit: 45, margin: 3.5, unit: 'mm', fields: [] },
      place: { field: 'section.cavity_mm' },
      sentence: '45 mm are available; 40 mm are used, 41.5 mm with the tolerance.',
    });
    expect(available(41.5)).toMatchObject({ status: 'passes', margin: 0 });
    expect(available(41.5 - 1e-12)).toMatchObject({ status: 'passes', margin: 0 });
  });

  it('fails beyond, and says by how much and where it can come from', () => {
    expect(available(41)).toMatchObject({ status: 'fails', margin: -0.5 });
    expect(available(41).fields).toEqual([
      ...['section.backing.thickness_mm', 'section.front.thickness_mm', 'section.cavity_mm'],
    ]);
    expect(available(41).sentence).toMatch(/ Take 0\.5 mm off\.$/);
    expect(available(41).advice[2]).toContain('shallower than 22 mm');
  });
});
