import { describe, expect, it } from 'vitest';
import { type Job, newJob, sizeJob } from '../../src/index.ts';
import { type IngressCode, waterNumeral } from '../../src/job/ingress.ts';

type Moisture = Job['site']['moisture'];

function found(
  moisture: Moisture,
  ip: { strip?: IngressCode; driver?: IngressCode },
  change?: (job: Job) => void,
) {
  const job = newJob();
  job.site.moisture = moisture;
  if (ip.strip) job.strip.data = { ip: ip.strip };
  if (ip.driver) job.drivers.data = { ip: ip.driver };
  change?.(job);
  const answer = sizeJob(job);
  if (!answer.ok) throw new Error(answer.issues.map(({ sentence }) => sentence).join(' '));
  return {
    finding: answer.value.findings.find(({ id }) => id === 'site-moisture'),
    cautions: answer.value.cautions.map(({ id }) => id),
    because: answer.value.cautions.find(({ id }) => id === 'dry-location')?.because,
  };
}

const verdict = (...asked: Parameters<typeof found>) => found(...asked).finding?.status;

describe('moisture', () => {
  it('reads the second numeral, which is that against water (IEC 60529)', () => {
    expect(['IP20', 'IP44', 'IP65', 'IP68'].map((code) => waterNumeral(code as IngressCode))).toEqual([
      0, 4, 5, 8,
    ]);
  });

  it('says nothing of a dry place, nor of one that is not told, whose caution is as it was', () => {
    expect(found(null, {})).toMatchObject({ finding: undefined });
    expect(found(null, {}).because).toBe('The job says nothing of moisture, so a dry room is assumed.');
    expect(found('dry', {}).finding).toBeUndefined();
    expect(found('dry', {}).because).toBe('The job says that it stands in a dry place.');
  });

  it.each([
    // A damp place commonly asks for IPX4, a wet one for IPX5.
    ['damp', 'IP44', 'IP44', 'watch'],
    ['damp', 'IP20', 'IP44', 'fails'],
    ['damp', 'IP65', 'IP20', 'fails'],
    ['damp', 'IP43', 'IP65', 'fails'],
    ['wet', 'IP65', 'IP65', 'watch'],
    ['wet', 'IP44', 'IP65', 'fails'],
    ['wet', 'IP54', 'IP67', 'fails'],
    ['wet', 'IP68', 'IP66', 'watch'],
  ] as const)('%s, strip %s, driver %s: %s', (moisture, strip, driver, status) => {
    expect(verdict(moisture, { strip, driver })).toBe(status);
  });

  it('is never green, and never without the words on cut ends', () => {
    for (const moisture of ['damp', 'wet'] as const) {
      const { finding, cautions } = found(moisture, { strip: 'IP68', driver: 'IP68' });
      expect(finding!.status).toBe('watch');
      expect(finding!.sentence).toMatch(/every cut end, joint and terminal has to be sealed/);
      expect(finding!.sentence).not.toMatch(/compl|approved|safe/i);
      expect(cautions).toContain('wet-location');
      expect(cautions).not.toContain('dry-location');
    }
  });

  it('names what is not known, and where to enter it', () => {
    const { finding } = found('damp', { strip: 'IP65' });
    expect(finding).toMatchObject({ status: 'watch', place: { field: 'drivers.data.ip' } });
    expect(finding!.sentence).toMatch(/^The rating of the driver 24 V 75 W driver is not given\./);
    expect(finding!.remedies[0]).toEqual({
      sentence: 'Look up the IP rating of the driver and enter it.',
      field: 'drivers.data.ip',
    });
  });

  it('asks nothing of drivers that stand elsewhere', () => {
    const remote = (job: Job): void => {
      job.drivers.places = job.drivers.places.map((place) => ({ ...place, kind: 'remote', cable_mm: 4000 }));
    };
    expect(found('damp', { strip: 'IP65', driver: 'IP20' }).finding!.status).toBe('fails');
    expect(found('damp', { strip: 'IP65', driver: 'IP20' }, remote).finding!.status).toBe('watch');
  });
});

describe('an escape route', () => {
  it('is a caution that names the authority, only where the job says so', () => {
    const cautions = (escapeRoute: Job['site']['escapeRoute']) =>
      found(null, {}, (job) => {
        job.site.escapeRoute = escapeRoute;
      }).cautions;
    expect(cautions(null)).not.toContain('escape-route');
    expect(cautions('no')).not.toContain('escape-route');
    expect(cautions('yes')).toContain('escape-route');
    expect(cautions('no')).toContain('fire-rules');
  });
});
