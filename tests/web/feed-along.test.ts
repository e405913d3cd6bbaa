import { describe, expect, it } from 'vitest';
import { demoJobs, sizeJob } from '../../src/index.ts';
import { cutLineNear, type FeedAlong, feedAlong, moveFeed, shiftTo } from '../../web/state/feed-along.ts';
import { undo } from '../../web/state/history.ts';
import { createStore, emptyState } from '../../web/state/store.ts';
import { eachVisit, objections, openDemo, type PageService, settled, type Visit } from './browser.ts';

const { job } = demoJobs.find(({ id }) => id === 'window-seat')!;
const sized = sizeJob(job);
if (!sized.ok) throw new Error('the demo job is refused');
const { setOut } = sized.value;

function feedOf(id: string): FeedAlong {
  const feed = feedAlong(setOut, id);
  if (typeof feed !== 'object') throw new Error(`no feed point ${id}`);
  return feed;
}

const begun = () => createStore({ ...emptyState, draft: { job, entries: {}, parked: {} } });

describe('a feed point along its run', () => {
  const [run] = setOut.runs;
  const feed = feedOf(run!.feedPoints[0]!.id);

  it('keeps to the nearest cut line, whichever way a drag goes, and never beyond the strip', () => {
    for (let cutLine = 0; cutLine <= run!.unitCount; cutLine++) {
      const { across_mm, up_mm } = shiftTo(feed, cutLine);
      // A third of a unit further and far off to the side is the same cut line.
      const third = run!.strip_mm / run!.unitCount / 3;
      const up = (run!.y1_mm > run!.y0_mm ? 1 : -1) * third;
      expect(cutLineNear(feed, { across_mm: across_mm + 500, up_mm: up_mm + up })).toBe(cutLine);
    }
    expect(cutLineNear(feed, { across_mm: 0, up_mm: 1e6 })).toBe(
      run!.y1_mm > run!.y0_mm ? run!.unitCount : 0,
    );
  });

  it('is where the engine then feeds it, and undo brings it back in one step', () => {
    const store = begun();
    const to = Math.floor(run!.unitCount / 2);
    expect(moveFeed(store, feed, to - 1, true)).toContain(`cut line ${to - 1} of ${run!.unitCount}`);
    moveFeed(store, feed, to, true);
    const moved = sizeJob(store.get().draft!.job);
    if (!moved.ok) throw new Error('refused');
    const { runs } = moved.value.setOut;
    expect(runs[0]!.feedPoints.map(({ cutLine }) => cutLine)).toEqual([to]);
    expect(runs.slice(1).map(({ feedPoints }) => feedPoints)).toEqual(
      setOut.runs.slice(1).map(({ feedPoints }) => feedPoints),
    );
    undo(store);
    expect(store.get().draft!.job).toEqual(job);
  });

  it('stays where another feed point is already', () => {
    const both = sizeJob({ ...job, feeds: { ...job.feeds, arrangement: 'both' } });
    if (!both.ok) throw new Error('refused');
    const [first] = both.value.setOut.runs[0]!.feedPoints;
    const store = begun();
    const one = feedAlong(both.value.setOut, first!.id) as FeedAlong;
    expect(moveFeed(store, one, one.run.unitCount, false)).toContain('another feed point is at cut line');
    expect(store.get().draft!.job).toBe(job);
  });

  it('is not moved where each end has one conductor', () => {
    const crossed = sizeJob({ ...job, feeds: { ...job.feeds, arrangement: 'crossed' } });
    if (!crossed.ok) throw new Error('refused');
    const [first] = crossed.value.setOut.runs[0]!.feedPoints;
    expect(feedAlong(crossed.value.setOut, first!.id)).toContain('one conductor at each end');
  });
});

let now: Visit & { readonly service: PageService };
eachVisit((visit) => {
  now = visit;
});

it('a feed point is dragged along its strip with its cut line beside it, and moved by the arrow keys', async () => {
  const { page, service } = now;
  await openDemo(page, service.address, 'Window seat');
  const feed = page.locator('.feed-point').first();
  const id = await feed.getAttribute('data-feed');
  const box = (await feed.boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x, y - 40);
  await page.mouse.move(x, y - 80, { steps: 3 });
  expect(await page.locator('.dragged-where').textContent()).toMatch(
    /^cut line \d+ of \d+, [\d,.]+\smm from the start of the strip$/,
  );
  await page.mouse.up();
  const said = page.locator('wall-elevation p.unseen[role="status"]');
  const lineSaid = async (): Promise<number> =>
    Number(/cut line (\d+) of/.exec((await said.textContent()) ?? '')?.[1]);
  await expect.poll(lineSaid).toBeGreaterThan(0);
  const dragged = await lineSaid();
  await settled(page);
  const at = page.locator('.picked-part dd').first();
  // Picked from the keyboard by its name in the schedule, then moved by keys.
  await page.getByRole('tab', { name: /Feed-point/ }).click();
  await page.locator('schedule-tables').getByRole('button', { name: id!, exact: true }).click();
  await at.waitFor();
  const held = page.getByRole('button', { name: new RegExp(`^Feed point ${id}:`) });
  await held.focus();
  await page.keyboard.press('ArrowUp');
  await expect.poll(lineSaid).not.toBe(dragged);
  const once = await lineSaid();
  await page.keyboard.press('ArrowUp');
  await expect.poll(lineSaid).toBe(2 * once - dragged);
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('ArrowDown');
  await expect.poll(lineSaid).toBe(dragged);
  await settled(page);
  expect(await objections(page)).toEqual([]);
});
