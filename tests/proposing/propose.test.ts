import { describe, expect, it } from 'vitest';
import type { ProposalProgress, Proposals } from '../../src/answer/proposals.ts';
import { proposals as schema } from '../../src/answer/proposals.ts';
import { demoJobs } from '../../src/job/demo-jobs.ts';
import type { Job } from '../../src/job/job.ts';
import { newJob } from '../../src/job/new-job.ts';
import { type Openable, openByDefault } from '../../src/job/open-choices.ts';
import type { Within } from '../../src/proposing/choices.ts';
import { beatsInEverything } from '../../src/proposing/designs.ts';
import { propose } from '../../src/proposing/propose.ts';

function proposed(job: Job, open: readonly Openable[], within: Within = {}) {
  const seen: ProposalProgress[] = [];
  const going = propose(job, open, within);
  for (let step = going.next(); ; step = going.next()) {
    if (!step.done) seen.push(step.value);
    else if (step.value.ok) return { answer: step.value.value, seen };
    else throw new Error(step.value.issues[0]!.sentence);
  }
}

const windowSeat = demoJobs.find(({ id }) => id === 'window-seat')!.job;
const foyer = demoJobs.find(({ id }) => id === 'foyer-wall')!.job;

const choicesIn = ({ job }: Proposals['designs'][number]): unknown[] => [
  ...[job.strip.entry, job.dimming.levels, job.section, job.drivers.entry, job.feeds.arrangement],
  ...[job.cables.layout, job.cables.entry, job.cables.trunk, job.cables.fuses],
];

describe('a proposal', () => {
  it('for a job that passes and is open in nothing is that job', () => {
    const { answer } = proposed(windowSeat, []);
    expect(answer.proof).toMatchObject({ allowedCount: 1, proved: true });
    expect(answer.designs).toHaveLength(1);
    expect(answer.designs[0]!.job).toEqual(windowSeat);
    expect(answer.designs[0]!.changes).toEqual([]);
    expect(answer.nearestMiss).toBeNull();
  });

  it('fits its schema, passes every check, and is beaten by no other in everything', () => {
    const { answer } = proposed(windowSeat, openByDefault(windowSeat));
    expect(schema.parse(answer)).toEqual(answer);
    expect(answer.proof.proved).toBe(true);
    const { designs } = answer;
    expect(designs.length).toBeGreaterThan(1);
    expect(designs.length).toBeLessThanOrEqual(6);
    for (const one of designs) {
      expect(one.sizing.accuracy).toBe('careful');
      expect(one.sizing.findings.filter(({ status }) => status === 'fails')).toEqual([]);
      expect(designs.some((other) => beatsInEverything(other.measures, one.measures))).toBe(false);
    }
    const warnings = designs.map(({ measures }) => measures.warningCount);
    expect(warnings[0]).toBe(Math.min(...warnings));
    const { allowedCount, fellCount, dearerCount, openCount } = answer.proof;
    expect(fellCount + dearerCount + openCount + 1).toBe(allowedCount);
  });

  it('says how far it has come, with the best so far once there is one', () => {
    const { seen } = proposed(windowSeat, ['cables', 'layout']);
    const found = seen.findIndex(({ best }) => best !== null);
    expect(found).toBeGreaterThanOrEqual(0);
    expect(seen.at(-1)!.best).not.toBeNull();
    expect(seen.every(({ allowedCount }) => allowedCount === seen[0]!.allowedCount)).toBe(true);
  });

  it('is the same when asked twice', () => {
    const open = ['cables', 'layout', 'drivers'] as const;
    expect(proposed(windowSeat, open)).toEqual(proposed(windowSeat, open));
  });

  /** The wall as in a mirror: its one driver place on the other side, its terminals facing the other way. */
  it('is mirrored where the wall is', () => {
    const { panel, drivers } = windowSeat;
    const [place] = drivers.places;
    const mirrored: Job = {
      ...windowSeat,
      drivers: {
        ...drivers,
        places: [
          {
            ...place!,
            x_mm: panel.width_mm - place!.x_mm - place!.width_mm,
            terminalsFace: 'left',
          },
        ],
      },
    };
    const open = ['strip', 'level', 'cables', 'layout', 'drivers'] as const;
    const [one, other] = [proposed(windowSeat, open).answer, proposed(mirrored, open).answer];
    expect(other.designs.map(choicesIn)).toEqual(one.designs.map(choicesIn));
    // Devices stand from the left in their box either way, so that links differ by centimetres.
    for (const [i, { measures }] of one.designs.entries()) {
      const { measures: mirror } = other.designs[i]!;
      const counted = ({ driverCount, jointCount, depth_mm, warningCount }: typeof measures) => [
        ...[driverCount, jointCount, depth_mm, warningCount],
      ];
      expect(counted(mirror)).toEqual(counted(measures));
      expect(Math.abs(mirror.input_W / measures.input_W - 1)).toBeLessThan(0.005);
      expect(Math.abs(mirror.cable_m - measures.cable_m)).toBeLessThan(0.2);
    }
  });

  it('opens the depth by itself where the build-up has no room, and keeps it otherwise', () => {
    expect(openByDefault(foyer)).toContain('depth');
    expect(openByDefault(windowSeat)).not.toContain('depth');
  });

  it('refuses a strip that is not in the catalogue', () => {
    const going = propose({ ...newJob(), strip: { ...newJob().strip, entry: 'no such' } }, []);
    const { value } = going.next();
    expect(value).toMatchObject({ ok: false, issues: [{ code: 'unknown-entry' }] });
  });
});

describe('the nearest miss', () => {
  it('names the least change that would make a wall pass', () => {
    const tooDeep: Job = { ...windowSeat, section: { ...windowSeat.section, available_mm: 36 } };
    const { answer } = proposed(tooDeep, ['cables']);
    expect(answer.designs).toEqual([]);
    expect(answer.proof.proved).toBe(true);
    // 36 mm less 1.5 of tolerance, 6 of backing and 12 of front leave 16.5.
    expect(answer.nearestMiss!.opened).toEqual(['depth']);
    expect(answer.nearestMiss!.design!.job.section.cavity_mm).toBe(16.5);
    expect(answer.nearestMiss!.sentence).toBe(
      'Nothing passes with what is open: depth of the build-up. The least change found that makes it pass: cavity 16.5 mm deep instead of 20 mm deep.',
    );
  });

  it('says so where nothing helps', () => {
    const { answer } = proposed(
      { ...windowSeat, light: { ...windowSeat.light, wanted_cd_per_m2: 5000 } },
      [],
      { strips: ['24V-4.8W'] },
    );
    expect(answer.designs).toEqual([]);
    expect(answer.nearestMiss!.sentence).toMatch(/^Nothing passes with what is open: brightness/);
  });
});
