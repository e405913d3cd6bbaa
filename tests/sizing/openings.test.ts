import { describe, expect, it } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { newJob } from '../../src/job/new-job.ts';
import type { Opening } from '../../src/job/opening.ts';
import { sizeJob } from '../../src/sizing/size-job.ts';

const door: Opening = {
  name: 'Door',
  kind: 'opening',
  cablesPass: false,
  x_mm: 1000,
  y_mm: 0,
  width_mm: 900,
  height_mm: 2000,
  rim_mm: 60,
};

/** Five slots at 110, 805, 1,500, 2,195 and 2,890 mm, fed from the left along the foot, 40 mm up. */
function wall(openings: Opening[], change: Partial<Job['cables']> = {}): Job {
  const plain = newJob();
  return {
    ...plain,
    panel: { width_mm: 3000, height_mm: 2600 },
    openings,
    slots: { ...plain.slots, spacing: { by: 'count', count: 5 } } as Job['slots'],
    cables: { ...plain.cables, layout: 'radial', way: 'foot', wayInset_mm: 40, ...change },
    drivers: { ...plain.drivers, places: [{ ...plain.drivers.places[0]!, x_mm: -500, y_mm: 0 }] },
  };
}

function sized(job: Job) {
  const answer = sizeJob(job);
  if (!answer.ok) throw new Error(JSON.stringify(answer.issues));
  return answer.value;
}

const cable = (answer: ReturnType<typeof sized>, id: string) => answer.cables.find((each) => each.id === id)!;
const about = (answer: ReturnType<typeof sized>, id: string) =>
  answer.findings.find((finding) => finding.id === id);

describe('a wall with a door', () => {
  it('has cables that go over it, and ends the slot above it where the timber begins', () => {
    const [plain, doored] = [sized(wall([])), sized(wall([door]))];
    // Left of the door nothing changes; right of it the way goes up and down 2,020 - 40 mm.
    for (const [id, more_mm] of [
      ['C01', 0],
      ['C02', 0],
      ['C04', 3960],
      ['C05', 3960],
    ] as const)
      expect(cable(doored, id).way_mm - cable(plain, id).way_mm, id).toBeCloseTo(more_mm, 6);
    // From the foot at 980 up the side to 2,020 and on to 1,500, 2,060: as far across, and 2,060 - 40 up.
    const [over, under] = [doored.setOut.slots[2]!, plain.setOut.slots[2]!];
    expect([over.y0_mm, over.y1_mm]).toEqual([2060, under.y1_mm]);
    const feed = (answer: typeof plain) => answer.setOut.runs[2]!.feedPoints[0]!;
    expect(cable(doored, 'C03').way_mm - cable(plain, 'C03').way_mm).toBeCloseTo(
      feed(doored).y_mm - feed(plain).y_mm,
      6,
    );
    expect(about(doored, 'opening-cables-1')).toBeUndefined();
    expect(doored.installation.throughOpenings).toEqual([]);
  });

  it('fails with a trunk that has its taps in the doorway, and says what helps', () => {
    const answer = sized(wall([door], { layout: 'trunk' }));
    expect(about(answer, 'opening-cables-1')).toMatchObject({
      status: 'fails',
      limit: 0,
      title: 'Cables past Door',
      remedies: [{ field: 'cables.way' }, { field: 'cables.layout' }, { field: 'drivers.places' }],
    });
    const head = sized(wall([door], { layout: 'trunk', way: 'head' }));
    expect(about(head, 'opening-cables-1')).toBeUndefined();
  });

  it('fails with drivers in the doorway', () => {
    const job = wall([door]);
    const places = [{ ...job.drivers.places[0]!, x_mm: 1200, y_mm: 300 }];
    const answer = sized({ ...job, drivers: { ...job.drivers, places } });
    expect(about(answer, 'opening-place-1-1')).toMatchObject({
      status: 'fails',
      place: { field: 'drivers.places[1].x_mm' },
    });
  });
});
