import { describe, expect, it } from 'vitest';
import type { Cable } from '../../src/answer/cables.ts';
import type { Condition } from '../../src/answer/conditions.ts';
import { cautionRules, cautionsFor } from '../../src/hand-over/cautions.ts';
import type { CautionContext } from '../../src/hand-over/input.ts';
import { cableOf, smallJob } from './small-job.ts';

function context(change: (job: CautionContext['job']) => void = () => {}): CautionContext {
  const input = smallJob();
  change(input.job);
  return {
    ...input,
    heat: {
      method: '',
      validity: '',
      unknown: null,
      strip_W_per_m: 3.6,
      stripBand_W_per_m: { least: 3.6, greatest: 3.6 },
      heat_W_per_m: 2.4,
      temperatures: [],
      paths: [],
      balance: 0,
      life: { hours: null, atLeast: false, sentence: '' },
      upperEnd_K: 0,
      profile: null,
      field: null,
    },
  };
}

const ids = (c: CautionContext): string[] => cautionsFor(c).map((caution) => caution.id);
const because = (c: CautionContext, id: string) => cautionsFor(c).find((x) => x.id === id)?.because;

describe('cautions', () => {
  it('are unique, end in a full stop, name a basis and promise nothing', () => {
    expect(new Set(cautionRules.map((rule) => rule.id)).size).toBe(cautionRules.length);
    for (const { sentence, basis } of cautionRules) {
      expect(sentence).toMatch(/\.$/);
      expect(basis).not.toBe('');
      expect(sentence).not.toMatch(/\b(compl(y|ies|iant)|approved|safe(ly)?)\b/i);
    }
  });

  it('all appear on an ordinary job with zones, each with its reason, but those of open slots, profiles, panels, 120 V and the place', () => {
    const special = ['us-rules', 'open-slot', 'profile-short', 'panel-gaps', 'escape-route', 'wet-location'];
    const ordinary = cautionRules.map((rule) => rule.id).filter((id) => !special.includes(id));
    expect(ids(context())).toEqual(ordinary);
    for (const caution of cautionsFor(context())) expect(caution.because).toMatch(/\.$/);
  });

  it('drop dimming when nothing is dimmed, and timber when nothing burns', () => {
    const plain = context((job) => {
      job.dimming.zones = [];
      job.section.backing.material = 'plasterboard';
      job.section.front.material = 'plasterboard';
    });
    expect(ids(plain)).not.toContain('dimming-match');
    expect(ids(plain)).not.toContain('heat-on-timber');
  });

  it('speak of bare copper where slots are open, and of articles of their own at 120 V', () => {
    const job = context((each) => {
      each.section.cover = 'open';
      each.site.mains_V = 120;
    });
    expect(because(job, 'open-slot')).toBe('The slots of this job are open.');
    expect(because(job, 'us-rules')).toContain('120 V');
  });

  // Clauses as corrected by an electrician: mounting surfaces are 4.16, instructions of makers 510.3.
  it('rest on the clauses that say so, each with how it reached us', () => {
    const basisOf = (id: string): string => cautionRules.find((rule) => rule.id === id)!.basis;
    expect(basisOf('heat-on-timber')).toMatch(/422; IEC 60364-5-55, clause 559; IEC 60598-1, 4\.16/);
    expect(basisOf('makers-sheets-first')).toContain('IEC 60364-5-51, clause 510.3');
    expect(basisOf('fuse-each-cable')).toMatch(/433, 434 and 436; IEC 60364-7-715/);
    expect(basisOf('furniture')).toContain('IEC 60364-7-713');
    for (const { id, basis } of cautionRules.filter((rule) => /IEC|EN \d|NEC|BS 7671/.test(rule.basis)))
      expect(basis, id).toMatch(/\((secondary|from memory)\)/);
  });

  it('say which cables have no fuse, which places are closed, and which figures are typical', () => {
    const c = context((job) => {
      job.drivers.places[0]!.vented = false;
      job.strip.data = { unitsPerMetre: 20 };
    });
    const noFuse = {
      ...c,
      cables: c.cables.map((cable) =>
        cable.id === 'C02.1' ? { ...cable, protectedBy: 'nothing' as const } : cable,
      ),
    };
    expect(because(noFuse, 'fuse-each-cable')).toContain('C02.1');
    expect(because(c, 'driver-access')).toContain('Not every place is vented');
    expect(because(c, 'makers-sheets-first')).toBe('Typical catalogue values stand for: driver, cable.');
  });

  it('leave the mains out when there is no driver', () => {
    const c = context();
    const none = { ...c, drivers: { ...c.drivers, drivers: [] } };
    expect(ids(none)).not.toContain('mains-electrician');
  });
});

/** The reasons given for a caution, null where it does not appear. */
const reason = (change: (c: Changed) => void, id: string): string | null => {
  const changed = structuredClone(context()) as Changed;
  change(changed);
  return because(changed, id) ?? null;
};

/** A copy of the job that may be changed. */
type Changed = CautionContext & { readonly cables: Cable[]; readonly conditions: Condition[] };

const noDriver = (c: Changed) => c.drivers.drivers.splice(0);
const noFeedPoint = (c: Changed) => {
  for (const run of c.setOut.runs) run.feedPoints = [];
};
const same = (): void => {};

describe('the reason of a caution', () => {
  it('counts the drivers on the mains, and is gone without one', () => {
    for (const id of ['mains-electrician', 'isolate-first']) {
      expect(reason(same, id)).toBe('1 driver on 230 V mains.');
      expect(reason((c) => c.drivers.drivers.push(c.drivers.drivers[0]!), id)).toBe(
        '2 drivers on 230 V mains.',
      );
      expect(reason(noDriver, id)).toBeNull();
    }
    for (const id of ['selv-separation', 'driver-marks']) {
      expect(reason(same, id)).toBe('24 V circuits start at drivers that are on the mains.');
      expect(reason(noDriver, id)).toBeNull();
    }
    expect(reason(same, 'furniture')).toBe('A lit panel may count as furniture or as part of the building.');
    expect(reason(noDriver, 'furniture')).toBeNull();
  });

  it('names articles of their own below 200 V, and not from there on', () => {
    const at = (mains_V: number) => reason((c) => Object.assign(c.job.site, { mains_V }), 'us-rules');
    expect(at(120)).toBe('The mains are 120 V, as where that code applies.');
    expect(at(199)).not.toBeNull();
    expect(at(200)).toBeNull();
  });

  it('names articles of their own where the job names that code, whatever its volts', () => {
    const under = (rules: 'IEC' | 'NEC') => reason((c) => Object.assign(c.job.site, { rules }), 'us-rules');
    expect(under('NEC')).toBe('The job names that code as its rules.');
    expect(under('IEC')).toBeNull();
  });

  it('counts cables, what their outputs give and what protects them, or names those that nothing protects', () => {
    const fuses = (change: (c: Changed) => void) => reason(change, 'fuse-each-cable');
    const held = (ids: string[]) => (c: Changed) => {
      for (const id of ids) Object.assign(cableOf(c, id), { protectedBy: 'driver' });
    };
    expect(fuses(same)).toBe(
      '6 cables, on outputs that give up to 2.5 A: 5 behind fuses, 1 held by the limit of the driver.',
    );
    expect(fuses(held(['C01', 'C02.1']))).toBe(
      '6 cables, on outputs that give up to 2.5 A: 3 behind fuses, 3 held by the limit of the driver.',
    );
    expect(fuses((c) => c.cables.splice(1))).toBe(
      '1 cable, on outputs that give up to 2.5 A: 1 held by the limit of the driver.',
    );
    const fused = (c: Changed) => {
      c.cables.splice(2);
      for (const each of c.cables) Object.assign(each, { protectedBy: 'fuse' });
    };
    expect(fuses(fused)).toBe('2 cables, on outputs that give up to 2.5 A: 2 behind fuses.');
    expect(fuses((c) => c.cables.splice(0))).toBeNull();
    const bare = (...ids: string[]) =>
      fuses((c) => {
        for (const id of ids) Object.assign(cableOf(c, id), { protectedBy: 'nothing', fuse: null });
      });
    expect(bare('C02.1')).toBe('Nothing protects cable C02.1 yet.');
    expect(bare('C01', 'C03.2')).toBe('Nothing protects cables C01 and C03.2 yet.');
  });

  it('gives heat and air of every place in use, in the order of the drivers, and says where none leaves', () => {
    const access = (change: (c: Changed) => void) => reason(change, 'driver-access');
    expect(access(same)).toBe('Plinth: 1.5 W of heat, air at 35 °C.');
    expect(access(noDriver)).toBeNull();
    const [attic, plinth] = ['Attic: 3.0 W of heat, air at 41 °C', 'Plinth: 1.5 W of heat, air at 35 °C'];
    /** A second place, whose driver stands before or after the first, or in which there is none. */
    const second = (driverCount: number, vented: boolean, first: boolean) =>
      access((c) => {
        const [driver] = c.drivers.drivers;
        const other = { ...driver!, id: 'D2', place: 'Attic' };
        if (driverCount > 0) c.drivers.drivers.splice(first ? 0 : 1, 0, other);
        const answer = { ...c.drivers.places[0]!, name: 'Attic', loss_W: 3, air_degC: 41 };
        c.drivers.places.push({ ...answer, driverCount });
        c.job.drivers.places.push({ ...c.job.drivers.places[0]!, name: 'Attic', vented });
      });
    expect(second(1, true, false)).toBe(`${plinth}; ${attic}.`);
    expect(second(1, true, true)).toBe(`${attic}; ${plinth}.`);
    expect(second(1, false, false)).toBe(`${plinth}; ${attic}. Not every place is vented.`);
    // A closed place that holds no driver is nobody's trouble.
    expect(second(0, false, false)).toBe(`${plinth}.`);
  });

  it('puts the warmer of two places of one name first', () => {
    const twice = reason(
      (c) => c.drivers.places.push({ ...c.drivers.places[0]!, loss_W: 3, air_degC: 41 }),
      'driver-access',
    );
    expect(twice).toBe('Plinth: 3.0 W of heat, air at 41 °C; Plinth: 1.5 W of heat, air at 35 °C.');
  });

  it('names what burns once, and how hot it is put at; plasterboard does not burn', () => {
    const burns = (backing: string, front: string, change = same as (c: Changed) => void) =>
      reason((c) => {
        Object.assign(c.job.section.backing, { material: backing });
        Object.assign(c.job.section.front, { material: front });
        change(c);
      }, 'heat-on-timber');
    const leaves = 'The strip leaves 2.4 W/m of heat inside a build-up of';
    expect(burns('birch plywood', 'oak')).toBe(`${leaves} birch plywood and oak.`);
    expect(burns('oak', 'oak')).toBe(`${leaves} oak.`);
    expect(burns('plasterboard', 'oak')).toBe(`${leaves} oak.`);
    expect(burns('oak', 'plasterboard')).toBe(`${leaves} oak.`);
    expect(burns('plasterboard', 'plasterboard')).toBeNull();
    const place = {
      name: '',
      low_degC: 0,
      high_degC: 0,
      power: 1,
      limit_degC: null,
      limits: [],
      x_mm: null,
      y_mm: null,
    };
    const hot = burns('oak', 'oak', (c) =>
      c.heat.temperatures.push(
        { ...place, id: 'strip', value_degC: 60 },
        { ...place, id: 'timber', value_degC: 44.6 },
      ),
    );
    expect(hot).toBe(`${leaves} oak, whose hottest place is put at 45 °C.`);
    // Slots that do not stand upright: what was worked out for an upright one is not said of them.
    const unknown = burns('oak', 'oak', (c) => {
      c.heat.temperatures.push({ ...place, id: 'timber', value_degC: 44.6 });
      Object.assign(c.heat, { unknown: 'Not known.' });
    });
    expect(unknown).toBe(`${leaves} oak, whose hottest place is not known.`);
    expect(reason(same, 'fire-rules')).toBe(`${leaves} birch plywood and oak.`);
  });

  it('counts what ends up behind the face', () => {
    const behind = [
      ...['luminaire', 'surfaces', 'solder-and-transport', 'test-before-closing', 'link-out', 'later-access'],
    ];
    for (const id of behind) {
      expect(reason(same, id)).toBe('5 feed points and 1 strip joint end up behind the face.');
      expect(reason(noFeedPoint, id)).toBeNull();
    }
    const one = (c: Changed) => {
      noFeedPoint(c);
      c.setOut.runs[0]!.feedPoints = [...context().setOut.runs[0]!.feedPoints];
      c.setOut.jointCount = 0;
    };
    expect(reason(one, 'link-out')).toBe('1 feed point ends up behind the face.');
  });

  it('of dimming is a frequency, or zones, or both', () => {
    const dimmed = (pwm_Hz: number | null, zoned: boolean) =>
      reason((c) => Object.assign(c.job.dimming, { pwm_Hz }, zoned ? {} : { zones: [] }), 'dimming-match');
    for (const [pwm_Hz, zoned] of [
      [4000, false],
      [null, true],
      [4000, true],
    ] as const)
      expect(dimmed(pwm_Hz, zoned)).toBe('This job is dimmed or divided into zones.');
    expect(dimmed(null, false)).toBeNull();
  });

  it('of open slots is that they are open', () => {
    expect(reason(same, 'open-slot')).toBeNull();
  });

  it('of dryness is that the job says nothing of moisture', () => {
    expect(reason(same, 'dry-location')).toBe('The job says nothing of moisture, so a dry room is assumed.');
  });

  it('names what stands for typical values, or that sheets were typed in', () => {
    const sheets = (strip: boolean, driver: boolean, cable: boolean) =>
      reason((c) => {
        c.job.strip.data = strip ? { reel_mm: 5000 } : {};
        c.job.drivers.data = driver ? { rated_W: 60 } : {};
        c.job.cables.data = cable ? { area_mm2: 1.5 } : {};
      }, 'makers-sheets-first');
    expect(sheets(false, false, false)).toBe('Typical catalogue values stand for: strip, driver, cable.');
    expect(sheets(false, true, true)).toBe('Typical catalogue values stand for: strip.');
    expect(sheets(true, false, true)).toBe('Typical catalogue values stand for: driver.');
    expect(sheets(true, true, false)).toBe('Typical catalogue values stand for: cable.');
    expect(
      reason((c) => {
        c.job.strip.data = { reel_mm: 5000 };
        c.job.drivers.data = { rated_W: 60 };
        c.job.cables.data = { area_mm2: 1.5 };
        c.job.cables.trunk = { entry: '2.5mm2', data: {} };
      }, 'makers-sheets-first'),
    ).toBe('Typical catalogue values stand for: trunk cable.');
    const dimmed = reason((c) => {
      Object.assign(c.job.dimming, { control: 'dimmer', dimmer: { entry: '1x5A-push-button', data: {} } });
    }, 'makers-sheets-first');
    expect(dimmed).toBe('Typical catalogue values stand for: strip, driver, cable, dimmer.');
    expect(sheets(true, true, true)).toBe(
      'Figures of this job were typed in from data sheets: check them against the products bought.',
    );
  });
});

describe('what the job rests on', () => {
  it('comes before every other caution, in its own words', () => {
    const sentence = 'The dimmer must be made unable to go above 30 % of full.';
    const condition = {
      id: 'dimmer-limit',
      holds: 'heat',
      levels: [0.3],
      sentence,
      short: '',
    } satisfies Condition;
    const c = { ...context(), conditions: [condition] };
    expect(cautionsFor(c)[0]).toEqual({
      ...{ id: 'dimmer-limit', sentence, because: 'This job is sized for less than full.' },
      basis: 'the choice in the job to size for the working levels',
    });
    expect(ids(c).slice(1)).toEqual(ids(context()));
  });
});
