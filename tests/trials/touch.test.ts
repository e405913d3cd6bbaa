import { describe, expect, it } from 'vitest';
import { packPdf } from '../../server/papers/pack.ts';
import { demoJobs, type Job, readJob, type Sizing, sizeJob } from '../../src/index.ts';
import { pdfTexts } from '../papers/pdf-text.ts';

const seat = demoJobs.find(({ id }) => id === 'window-seat')!.job;

function touched(touch: Job['site']['touch']): Sizing {
  const outcome = sizeJob({ ...seat, site: { ...seat.site, touch } });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

const face = ({ heat }: Sizing) => heat.temperatures.find(({ id }) => id === 'face')!;

describe('a front that people lean on, judged as one touched in passing', () => {
  // EN ISO 13732-1:2006, Table 1: 43 degC for 8 h, 48 degC for 10 min, 60 degC for 1 min on wood (secondary, from memory).
  it.each([
    ['touched', 60],
    ['leant on', 48],
    ['seat or bed head', 43],
  ] as const)('%s: the front may reach %d °C', (touch, limit_degC) => {
    const row = face(touched(touch));
    expect(row.limits.map((limit) => limit.limit_degC)).toEqual([limit_degC]);
    expect(row.limits[0]!.basis).toContain('EN ISO 13732-1');
  });

  it('fails as a seat where it is warmer than 43 °C, and passes where it is touched in passing', () => {
    const warm = { ...seat, site: { ...seat.site, room_degC: 42 } };
    const status = (touch: Job['site']['touch']) => {
      const outcome = sizeJob({ ...warm, site: { ...warm.site, touch } });
      return outcome.ok && outcome.value.findings.find(({ id }) => id === 'heat-face')!.status;
    };
    expect(status('touched')).toBe('passes');
    expect(status('seat or bed head')).toBe('fails');
  });

  it('is what a job that says nothing means: touched', () => {
    const { touch: _, ...site } = seat.site;
    const read = readJob({ ...seat, site });
    expect(read.ok && read.value.site.touch).toBe('touched');
    expect(readJob({ ...seat, site: { ...site, touch: 'kicked' } }).ok).toBe(false);
  });

  it('is printed with the section', async () => {
    const job = { ...seat, site: { ...seat.site, touch: 'leant on' as const } };
    const sizing = touched('leant on');
    const pages = await packPdf(
      { job, sizing, format: 'A4', revisions: [], before: null, issued: null },
      false,
    );
    const paper = pdfTexts(pages).flat().join('').replaceAll(/\s/g, '');
    expect(paper).toContain('Frontwithinreachtakenasleantonforminutes:48°Catmost');
  });
});
