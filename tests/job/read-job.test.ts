import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { demoJobs } from '../../src/job/demo-jobs.ts';
import { jobJsonSchema } from '../../src/job/job.ts';
import { newJob } from '../../src/job/new-job.ts';
import { readJob, readJobText } from '../../src/job/read-job.ts';

type Loose = Record<string, unknown>;

/** A job with one value replaced at a path. */
function withValue(path: string, value: unknown): Loose {
  const document = structuredClone(newJob()) as unknown as Loose;
  const steps = path.split('.');
  const last = steps.pop()!;
  const at = steps.reduce((node, step) => node[step] as Loose, document);
  if (value === undefined) delete at[last];
  else at[last] = value;
  return document;
}

const issuesOf = (document: unknown) => {
  const result = readJob(document);
  return result.ok ? [] : result.issues;
};

describe('a job document', () => {
  it('reads back what was written, for the plain wall and every demo', () => {
    for (const job of [newJob(), ...demoJobs.map((demo) => demo.job)]) {
      const read = readJobText(JSON.stringify(job));
      expect(read.ok ? read.value : read.issues).toEqual(job);
    }
  });

  it('has a JSON Schema with labels, units and reasons', () => {
    const schema = JSON.stringify(jobJsonSchema());
    for (const word of ['Panel width', '"unit":"mm"', 'from a shelf edge to a wall of 30 m']) {
      expect(schema).toContain(word);
    }
  });
});

describe('bad documents get a sentence that names the field and the remedy', () => {
  it.each([
    ['negative', 'panel.width_mm', -5, /panel\.width_mm: Panel width must lie between 50 mm and 30,000 mm/],
    ['absurd', 'panel.height_mm', 1e9, /panel\.height_mm: Panel height must lie between/],
    [
      'missing',
      'section.cavity_mm',
      undefined,
      /section\.cavity_mm is missing: add it\. .*Cavity depth must be a number in mm/,
    ],
    [
      'of the wrong type',
      'site.room_degC',
      'warm',
      /site\.room_degC: Warmest room temperature must be a number/,
    ],
    [
      'not a number',
      'cables.tail_mm',
      Number.NaN,
      /cables\.tail_mm: Tail at each end of a cable must be a number/,
    ],
    ['not in the list', 'cables.way', 'roof', /cables\.way: Cable way must be one of: head, foot/],
    ['a fraction of a count', 'cables.grouped', 2.5, /cables\.grouped: .* must be a whole number/],
    ['too long', 'title.job', 'x'.repeat(61), /title\.job: Job name must not be longer than 60 characters/],
    ['an empty list', 'drivers.places', [], /drivers\.places: Drivers need a place/],
    ['from another kind of set-out', 'slots', { from: 'guess' }, /slots.*: Slots must come from "generator"/],
  ])('%s: %s', (_, path, value, sentence) => {
    const issues = issuesOf(withValue(path, value));
    expect(issues.map((issue) => issue.sentence).join('\n')).toMatch(sentence);
    expect(issues.every((issue) => issue.place.field !== undefined)).toBe(true);
  });

  it('an unknown key, and every one of them', () => {
    const document = withValue('panel.wdith_mm', 100);
    (document.site as Loose).altitude = 3;
    expect(issuesOf(document).map((issue) => [issue.code, issue.place.field])).toEqual([
      ['unknown-key', 'panel.wdith_mm'],
      ['unknown-key', 'site.altitude'],
    ]);
  });

  it('a job from a later format says so before anything else', () => {
    const issues = issuesOf({ format: { name: 'slotwatt-job', version: 3 }, anything: 1 });
    expect(issues).toMatchObject([{ code: 'later-format' }]);
    expect(issues[0]!.sentence).toMatch(/later Slotwatt \(format 3; this one reads 2\)/);
  });

  it.each([[null], [[]], ['text'], [7], [{}], [{ format: { name: 'other', version: 1 } }]])(
    'no job at all: %j',
    (document) => {
      expect(issuesOf(document)).toMatchObject([{ code: 'not-a-job' }]);
    },
  );

  it('a file cut anywhere is told apart from a job, and never throws', () => {
    const text = JSON.stringify(newJob());
    fc.assert(
      fc.property(fc.integer({ min: 0, max: text.length - 1 }), (length) => {
        const read = readJobText(text.slice(0, length));
        expect(read.ok ? '' : read.issues[0]!.code).toBe('not-json');
      }),
      { seed: 3, numRuns: 200 },
    );
  });

  it('any JSON value is answered, never thrown at', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        expect(readJob(value).ok).toBe(false);
      }),
      { seed: 5 },
    );
  });
});
