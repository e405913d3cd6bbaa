import { describe, expect, it } from 'vitest';
import { demoJobs } from '../../src/job/demo-jobs.ts';
import type { Job } from '../../src/job/job.ts';
import { newJob } from '../../src/job/new-job.ts';
import { newRoom, newRoomPoint, type Room } from '../../src/job/room.ts';
import { newZone } from '../../src/job/zone.ts';
import { sizeJob } from '../../src/sizing/size-job.ts';

function sized(job: Job) {
  const answer = sizeJob(job);
  if (!answer.ok) throw new Error(JSON.stringify(answer.issues));
  return answer.value;
}

const withRoom = (job: Job, room: Room): Job => ({ ...job, light: { ...job.light, room } });

/** One upright slot in the middle of a panel 600 by 2,400 mm, its strip fed at both ends with thick cable. */
function oneSlot(): Job {
  const plain = newJob();
  return {
    ...plain,
    panel: { width_mm: 600, height_mm: 2400 },
    slots: { ...plain.slots, spacing: { by: 'count', count: 1 } } as Job['slots'],
    dimming: { ...plain.dimming, levels: [0.5] },
  };
}

describe('light into the room', () => {
  it('is the lumens of the strip times what leaves the slot, at full and at the working level', () => {
    const job = oneSlot();
    const { roomLight, light, products, setOut, circuit } = sized(job);
    const share = circuit.runs[0]!.unit_light.reduce((a, b) => a + b, 0) / circuit.runs[0]!.unit_light.length;
    const strip_lm = (products.strip.channels[0]!.lumens_per_m * setOut.runs[0]!.strip_mm * share) / 1000;
    expect(roomLight.wall.full_lm).toBeCloseTo(strip_lm * light.outFraction, 6);
    expect(roomLight.wall.working_lm).toBeCloseTo(roomLight.wall.full_lm / 2, 9);
    expect(roomLight.points).toEqual([]);
  });

  it('comes to the wall slot by slot, zone by zone', () => {
    const plain = newJob();
    const job: Job = {
      ...plain,
      dimming: {
        ...plain.dimming,
        levels: [0.2],
        zones: [{ ...newZone({ id: 'Z1', name: 'Left', slots: [1, 2] }), levels: [0.6] }],
      },
    };
    const { slots, wall } = sized(job).roomLight;
    expect(slots.map(({ full_lm, working_lm }) => working_lm / full_lm)).toEqual(
      slots.map((_, i) => expect.closeTo(i < 2 ? 0.6 : 0.2, 9)),
    );
    expect(slots.reduce((sum, { working_lm }) => sum + working_lm, 0)).toBeCloseTo(wall.working_lm, 9);
  });

  it('falls on a facing wall far away as from a point, and bounces as in a sphere', () => {
    const base = oneSlot();
    const { full_lm, working_lm } = sized(base).roomLight.wall;
    // Straight before the middle of the slot, 0.15 + 1.2 m up, 20 m away: E = Phi/(pi*d^2), 0.3 % less for its length.
    const room: Room = {
      ...{ width_mm: 10000, depth_mm: 20000, height_mm: 5000, reflectance: 0.6, maintenance: 0.8 },
      points: [{ ...newRoomPoint('Far'), plane: 'facing wall', distance_mm: 20000, height_mm: 1350 }],
    };
    const [far] = sized(withRoom(base, room)).roomLight.points;
    expect(far!.full.direct_lx / (full_lm / (Math.PI * 400))).toBeCloseTo(1, 2);
    // Two of 200, two of 50 and two of 100 m2 are 700 m2; 0.6/0.4 = 1.5.
    expect(far!.working.bounced_lx).toBeCloseTo((working_lm * 1.5) / 700, 9);
    const { direct_lx, bounced_lx, maintained_lx, band_lx } = far!.working;
    expect(maintained_lx).toBeCloseTo(0.8 * (direct_lx + bounced_lx), 12);
    expect(band_lx.least).toBeLessThan(maintained_lx);
    expect(band_lx.greatest).toBeGreaterThan(maintained_lx);
    expect(far!.along_mm).toBe(300);
  });

  it('is the same to both sides of a wall that is its own mirror image', () => {
    const job = newJob();
    const beside = (along_mm: number) => ({ ...newRoomPoint('Beside'), along_mm });
    const room: Room = { ...newRoom(), points: [beside(400), beside(2000)] };
    const [left, right] = sized(withRoom(job, room)).roomLight.points;
    // Not quite: each run is fed at its start, by a cable of its own length.
    expect(left!.full.direct_lx / right!.full.direct_lx).toBeCloseTo(1, 2);
  });

  it('counts heights from the floor, on which the panel stands higher or lower', () => {
    const job = oneSlot();
    const on = (floor_mm: number, height_mm: number): number => {
      const room: Room = { ...newRoom(), height_mm: 6000, points: [{ ...newRoomPoint('On'), height_mm }] };
      return sized({ ...job, light: { ...job.light, floor_mm, room } }).roomLight.points[0]!.full.direct_lx;
    };
    expect(on(900, 900)).toBeCloseTo(on(0, 0), 9);
    expect(on(900, 0)).not.toBeCloseTo(on(0, 0), 3);
  });

  it('leaves every other answer as it was', () => {
    const job = newJob();
    const { roomLight: _a, ...plain } = sized(job);
    const { roomLight: _b, ...asked } = sized(withRoom(job, newRoom()));
    expect(asked).toEqual(plain);
  });

  it('is found against what is wanted, and a place outside the room is refused by name', () => {
    const job = oneSlot();
    const wanting = (wanted_lx: number | null): Room => ({
      ...newRoom(),
      points: [{ ...newRoomPoint('Rug'), wanted_lx }],
    });
    const about = (wanted_lx: number | null) =>
      sized(withRoom(job, wanting(wanted_lx))).findings.find(({ id }) => id === 'room-1');
    expect(about(null)).toBeUndefined();
    const has_lx = about(1)!.value!;
    expect(about(1.01 * has_lx)?.status).toBe('fails');
    expect(about(0.99 * has_lx)?.status).toBe('watch');
    expect(about(0.5 * has_lx)?.status).toBe('passes');
    const outside: Room = { ...newRoom(), points: [{ ...newRoomPoint('Rug'), distance_mm: 4100 }] };
    expect(sizeJob(withRoom(job, outside))).toMatchObject({
      ok: false,
      issues: [{ code: 'place-outside-room', place: { field: 'light.room.points[1].distance_mm' } }],
    });
  });

  it('says where LEDs in view or a corner of the wall make more of a difference than the band', () => {
    const job = withRoom(oneSlot(), newRoom());
    expect(sized(job).roomLight.doubts).toEqual([]);
    const open = sized({ ...job, section: { ...job.section, cover: 'open' } });
    expect(open.roomLight.doubts).toEqual([expect.stringContaining('LEDs can be seen')]);
    const flat = demoJobs.find(({ job: { panels } }) => panels.length > 1)!.job;
    const panels = flat.panels.map((panel) => ({ ...panel, joint: 'inner corner' as const }));
    expect(sized(withRoom({ ...flat, panels }, newRoom())).roomLight.doubts).toContainEqual(
      expect.stringContaining('turns a corner'),
    );
  });

  it('stands in the demo of the foyer', () => {
    const { roomLight } = sized(demoJobs.find(({ id }) => id === 'foyer-wall')!.job);
    expect(roomLight.points.map(({ name }) => name)).toEqual(['Walkway', 'Reception desk', 'Wall opposite']);
  });
});
