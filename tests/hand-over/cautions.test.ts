import { describe, expect, it } from 'vitest';
import { cautionRules, cautionsFor } from '../../src/hand-over/cautions.ts';
import type { CautionContext } from '../../src/hand-over/input.ts';
import { smallJob } from './small-job.ts';

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

  it('all appear on an ordinary job with zones, each with its reason, but those of open slots and of 120 V', () => {
    const ordinary = cautionRules
      .map((rule) => rule.id)
      .filter((id) => !['us-rules', 'open-slot'].includes(id));
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
      cables: c.cables.map((cable, i) => (i === 1 ? { ...cable, fuse_A: null } : cable)),
    };
    expect(because(noFuse, 'fuse-each-cable')).toContain('C02');
    expect(because(c, 'driver-access')).toContain('Not every place is vented');
    expect(because(c, 'makers-sheets-first')).toBe('Typical catalogue values stand for: driver, cable.');
  });

  it('leave the mains out when there is no driver', () => {
    const c = context();
    const none = { ...c, drivers: { ...c.drivers, drivers: [] } };
    expect(ids(none)).not.toContain('mains-electrician');
  });
});
