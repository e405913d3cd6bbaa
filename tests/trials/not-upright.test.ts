import { describe, expect, it } from 'vitest';
import { packPdf } from '../../server/papers/pack.ts';
import { askJobHeat, demoJobs, type Job, newJob, sizeJob, sizeJobCarefully } from '../../src/index.ts';
import { pdfTexts } from '../papers/pdf-text.ts';

const stairs = demoJobs.find(({ id }) => id === 'stair-wall')!.job;

/** A low panel of level slots, which an upright section says nothing about. */
function level(): Job {
  const job = newJob();
  const slots = { ...job.slots, axis: 'level' } as Job['slots'];
  return { ...job, panel: { width_mm: 1200, height_mm: 1000 }, slots };
}

/** Slots of 100 mm, four times as high as their cavity is deep: the correlation of its air begins at five. */
function short(): Job {
  const job = newJob();
  const section = { ...job.section, cavity_mm: 25, available_mm: 60 };
  return { ...job, panel: { width_mm: 1200, height_mm: 300 }, section };
}

function granted<Value>(outcome: { ok: true; value: Value } | { ok: false; issues: unknown }): Value {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

const jobs = [
  ['slanted slots', stairs, 'do not stand upright'],
  ['level slots', level(), 'do not stand upright'],
  ['slots hardly higher than their cavity is deep', short(), '5 times as high'],
] as const;

describe.each(jobs)('temperatures of %s', (_, job, why) => {
  it.each([sizeJob, sizeJobCarefully])('do not pass, quick or careful', (size) => {
    const { findings, heat, notes } = granted(size(job));
    expect(heat.unknown).toContain(why);
    expect(notes.map(({ sentence }) => sentence)).toContain(heat.unknown);
    const about = findings.filter(({ id }) => heat.temperatures.some((row) => id === `heat-${row.id}`));
    expect(about.length).toBe(heat.temperatures.length);
    expect(about.filter(({ sentence }) => sentence.includes(heat.unknown!))).toHaveLength(1);
    for (const finding of about) {
      expect(finding.status).not.toBe('passes');
      if (!finding.sentence.includes(heat.unknown!))
        expect(finding.sentence).toContain('Not known, as said of');
      if (finding.status === 'watch') expect(finding).toMatchObject({ value: null, margin: null });
    }
  });

  it('are refused where heat is asked the other way round, with what to do', () => {
    const asked = askJobHeat(job);
    expect(asked.ok).toBe(false);
    if (!asked.ok)
      expect(asked.issues).toMatchObject([{ code: 'heat-not-known', place: { field: 'slots' } }]);
    if (!asked.ok) expect(asked.issues[0]!.sentence).toContain('measure');
  });

  it('are not known on the cover and on the section', async () => {
    const sizing = granted(sizeJob(job));
    const pack = await packPdf(
      { job, sizing, format: 'A4', revisions: [], before: null, issued: null },
      false,
    );
    const paper = pdfTexts(pack).flat().join('').replaceAll(/\s/g, '');
    expect(paper).toContain('notknown,seethesection');
    expect(paper).toContain('Notknown:temperaturesofanuprightslot');
    expect(paper).toContain(sizing.heat.unknown!.replaceAll(/\s/g, ''));
  });
});

describe('life of a strip in slots that do not stand upright', () => {
  it('is not given, whatever was tested', () => {
    const readings = [0, 1000, 2000, 3000, 4000, 5000, 6000].map((hours) => ({
      hours,
      maintenance: Math.exp(-2e-6 * hours),
    }));
    const lifeTests = [{ case_degC: 85, sampleCount: 20, readings }] as Job['strip']['lifeTests'];
    const { heat } = granted(sizeJob({ ...stairs, strip: { ...stairs.strip, lifeTests } }));
    expect(heat.life).toMatchObject({
      hours: null,
      sentence: 'No life is given: how warm the LEDs get is not known.',
    });
  });
});
