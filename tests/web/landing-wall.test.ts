import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { demoJobs } from '../../src/job/demo-jobs.ts';
import type { Job } from '../../src/job/job.ts';
import { eachVisit, type PageService, settled } from './browser.ts';
import { makerOn } from './maker.ts';

let service: PageService;
let page: Page;

eachVisit((now) => {
  ({ page, service } = now);
});

type Maker = ReturnType<typeof makerOn>;

async function threePanels({ press, unfold, fill }: Maker): Promise<void> {
  await unfold('Several panels');
  await press('Make it of two panels');
  await press('Add a panel');
  const panels = [
    ['Stair side', '1295', '20'],
    ['Over the door', '1 m', '4'],
    ['Window side', '1295', '20'],
  ] as const;
  for (const [i, [name, width, slotCount]] of panels.entries()) {
    await fill('Name of the panel', name, i);
    await fill('Width of this panel', width, i);
    await fill('Slots in this panel', slotCount, i);
    if (i > 0) await fill('Gap to the panel before', '5', i - 1);
  }
}

async function doorInTheMiddle({ press, unfold, fill }: Maker): Promise<void> {
  await unfold('Doors, windows and keep-outs');
  await press('Add a door or a window');
  await fill('Opening', 'Door to the archive');
  await fill('Opening from the left edge', '1420');
  await fill('Opening from the bottom', '0');
  await fill('Width of the opening', '760');
  await fill('Height of the opening', '2.04 m');
  await fill('Timber kept whole round it', '60');
}

async function evenSlots({ fill }: Maker): Promise<void> {
  for (const [side, margin] of [
    ['Left', '50'],
    ['Right', '50'],
    ['Foot', '100'],
    ['Head', '100'],
  ] as const)
    await fill(`${side} margin`, margin);
  await fill('Number of slots', '20');
}

async function twoZones({ press, unfold, fill }: Maker): Promise<void> {
  await fill('Bottom of the panel above the floor', '0');
  await fill('Working level', '7');
  await unfold('Zones dimmed together');
  await press('New zone with the chosen slot');
  await fill('Zone name', 'Stair side and door');
  await fill('Slots of the zone', '1-24');
  await press('New zone with the chosen slot');
  await fill('Zone name', 'Window side', 1);
  await fill('Slots of the zone', '25-44', 1);
}

async function opalProfile({ unfold, fill, choose }: Maker): Promise<void> {
  await unfold('Build-up');
  await fill('Batten width between slots', '30');
  await choose('Slot cover', /open slot/);
  await choose('Aluminium profile', /12 × 15 mm inside/);
  await choose('Cover of the profile', /^opal cover/);
  await choose('Strip position', /fills the slot/);
  await choose('Profile fixed by', /pressed or glued/);
}

async function trunksFromTheCupboard({ unfold, fill, choose }: Maker): Promise<void> {
  await unfold('Feeds and cables');
  await choose('Feed arrangement', /at the finish/);
  await choose('Cable of the trunks', /2\.5 mm²/);
  await choose('Cable way', /head/);
  await unfold('Drivers');
  await unfold('Place for the drivers');
  await fill('Driver place', 'Linen cupboard');
  await choose('Kind of driver place', /remote/);
  await fill('Cable from a remote place to the panel', '4 m');
  await fill('Driver place from the left edge', '0');
  await fill('Driver place from the bottom', '0');
  await fill('Width of the driver place', '800');
  await fill('Height of the driver place', '500');
  await fill('Depth of the driver place', '250');
}

/** What the wall is, without what it is called, what things cost, and the gap before the first panel, which nobody reads. */
function madeOf({ title: _, prices: __, site: { note: ___, ...site }, panels, ...rest }: Job) {
  return { ...rest, site, panels: panels.map((panel, i) => (i === 0 ? { ...panel, gap_mm: 0 } : panel)) };
}

it('a landing wall of three panels, a door, two zones and a cupboard goes from nothing to an issued revision by its labels', async () => {
  const maker = makerOn(page);
  const { press, fill } = maker;
  await page.goto(service.address);
  await settled(page);
  await press('New wall');
  await fill('Width of the wall', '3600');
  await fill('Height of the wall', '2400');
  await fill('Number of slots', '44');
  await fill('Width of a slot', '15');
  await fill('Depth there is', '45');
  await press('Draw the wall');
  await press('Go on by hand');
  await threePanels(maker);
  await doorInTheMiddle(maker);
  await evenSlots(maker);
  await opalProfile(maker);
  await trunksFromTheCupboard(maker);
  await twoZones(maker);
  await maker.unfold('Title block');
  await fill('Job name', 'Landing wall');
  await page.waitForSelector('main[data-standing="current"][data-accuracy="careful"]');
  expect(await page.locator('.slot').count()).toBe(44);
  expect(await page.locator('.finding.is-fails').count()).toBe(0);
  await press('Next: keep the job');
  await press('Next: issue revision A');
  await press('Issue revision A');
  await press('Next: print the papers');
  expect(await page.getByRole('row', { name: /^A / }).count()).toBeGreaterThan(0);

  const issued = await (await fetch(`${service.address}/api/jobs/landing-wall/revisions/a`)).json();
  const demo = demoJobs.find(({ id }) => id === 'landing-wall')!.job;
  expect(madeOf(issued.job)).toEqual(madeOf(demo));
});
