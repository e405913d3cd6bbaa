import { describe, expect, it } from 'vitest';
import { askJobLight, type Job, newJob, type Sizing, sizeJob } from '../../src/index.ts';

function jobWith(section: Partial<Job['section']>): Job {
  const job = newJob();
  return { ...job, section: { ...job.section, ...section } };
}

function sized(section: Partial<Job['section']>): Sizing {
  const outcome = sizeJob(jobWith(section));
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

const finding = ({ findings }: Sizing, id: string) => findings.find((one) => one.id === id);

describe.each(['clear acrylic, 3 mm', 'prismatic sheet', 'satin or frosted acrylic'] as const)(
  '%s over a strip that faces the slot, which does not spread light',
  (cover) => {
    const answer = sized({ cover });

    it('has the lamps in view, and nothing says that they do not show', () => {
      expect(answer.light.bareLampsSeen).toEqual(['standing', 'sitting']);
      expect(finding(answer, 'bare-lamps')).toMatchObject({ status: 'watch' });
      expect(finding(answer, 'bare-lamps')!.sentence).toContain(cover);
      expect(finding(answer, 'dots')!.status).not.toBe('passes');
      expect(JSON.stringify(answer)).not.toContain('do not show');
    });

    it('gives the luminance of the back behind it, dimmed by what the cover lets through', () => {
      // An open slot of the same depth shows the back itself. A cover also throws light back in, which brightens the
      // back a little: at most by what it reflects, 0.12, times the white back and its bounces.
      const open = sized({ cover: 'open' }).light.full_cd_per_m2;
      const through = {
        'clear acrylic, 3 mm': 0.85,
        'prismatic sheet': 0.8,
        'satin or frosted acrylic': 0.82,
      }[cover];
      expect(answer.light.seen).toBe('back through the cover');
      expect(answer.light.full_cd_per_m2 / open).toBeGreaterThan(through);
      expect(answer.light.full_cd_per_m2 / open).toBeLessThan(through * 1.3);
    });

    it('has a brightness that does not pass, since what the cover makes of the light is not known', () => {
      const job = jobWith({ cover });
      job.light.wanted_cd_per_m2 = answer.light.zones[0]!.luminance_cd_per_m2;
      const outcome = sizeJob(job);
      const brightness = finding(outcome.ok ? outcome.value : answer, 'brightness')!;
      expect(brightness.status).toBe('watch');
      expect(brightness.sentence).toContain('not known');
    });

    it('is told, asked for a depth that hides the lamps, that none does', () => {
      const asked = askJobLight(jobWith({ cover }));
      expect(asked.ok && asked.value.leastDepth_mm).toBeNull();
    });
  },
);

describe('an open slot with bare lamps in view', () => {
  it('has no finding that passes the dots beside the one that sees the lamps', () => {
    const answer = sized({ cover: 'open' });
    expect(finding(answer, 'bare-lamps')!.status).toBe('watch');
    expect(finding(answer, 'dots')!.status).not.toBe('passes');
    expect(answer.light.zones[0]!.dots).not.toContain('do not show');
  });

  it('says of the brightness that it is that of the back', () => {
    const answer = sized({ cover: 'open' });
    expect(answer.light.seen).toBe('back');
    expect(finding(answer, 'brightness')!.sentence).toMatch(
      /^At the working level of 15 % the lit back seen through the open slot/,
    );
  });
});

describe('a strip nobody can see, behind the front', () => {
  it('is judged by its dots, under a clear cover too', () => {
    const answer = sized({ cover: 'clear acrylic, 3 mm', strip: 'front', stripOffset_mm: 30 });
    expect(answer.light.bareLampsSeen).toEqual([]);
    expect(finding(answer, 'dots')!.limit).not.toBeNull();
  });
});

describe('opal acrylic, which spreads light', () => {
  it('is met itself, and judged by its dots', () => {
    const answer = sized({});
    expect(answer.light).toMatchObject({ seen: 'cover', bareLampsSeen: [] });
    expect(finding(answer, 'dots')!.limit).not.toBeNull();
  });
});
