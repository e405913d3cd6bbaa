import { expect, it } from 'vitest';
import { demoJobs } from '../../src/index.ts';
import { comparables, usualBefore } from '../../web/state/comparing.ts';
import { emptyState, type State } from '../../web/state/store.ts';
import { eachVisit, objections, openDemo, type PageService, settled, type Visit } from './browser.ts';
import { makerOn } from './maker.ts';

let now: Visit & { readonly service: PageService };
eachVisit((visit) => {
  now = visit;
});

const optionsOf = (label: string): Promise<string[]> =>
  now.page.getByRole('combobox', { name: label, exact: true }).locator('option').allTextContents();

it('compares the job on the page with the one that was kept, the maker’s own changes first, by labels and by keyboard', async () => {
  const { page, service } = now;
  const { press, fill, choose, unfold } = makerOn(page);
  await openDemo(page, service.address, 'Window seat');
  await unfold('Compare');
  expect(await optionsOf('Before')).toEqual(['The job on the page']);
  await press('Keep');
  await page.getByRole('button', { name: 'Jobs', exact: false }).first().waitFor();
  await expect.poll(() => optionsOf('Before')).toHaveLength(2);
  // Kept and unchanged: the two come to the same.
  await press('Compare the two');
  await page.getByText('come to the same').waitFor();
  await page.locator('[data-field="panel.width_mm"]').evaluate((input) => {
    for (let fold = input.closest('details'); fold; fold = fold.parentElement!.closest('details'))
      fold.open = true;
  });
  const width = page.getByRole('textbox', { name: 'Panel width', exact: true });
  const before = await width.inputValue();
  const [was, is] = [before, String(Number(before) + 40)].map((text) => Number(text).toLocaleString('en-GB'));
  await fill('Panel width', String(Number(before) + 40));
  await settled(page);
  await page.getByText('One of the two was changed since').waitFor();
  // By the keyboard alone: from the list over the other list to the button.
  await page.getByRole('combobox', { name: 'Before', exact: true }).focus();
  await page.keyboard.press('Tab');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  const made = page.locator('job-comparing .change-list').first();
  await made.getByText('Panel width').waitFor();
  expect(await made.locator('li').allTextContents()).toEqual([`Panel width: ${was} mm became ${is} mm`]);
  expect(await page.locator('job-comparing h3').first().textContent()).toContain('as last kept');
  expect(await objections(page)).toEqual([]);
  // The other way round.
  await choose('Before', /^The job on the page$/);
  await choose('After', /as last kept$/);
  await press('Compare the two');
  await made.getByText(`became ${was} mm`).waitFor();
  await expect
    .poll(() => made.locator('li').allTextContents())
    .toEqual([`Panel width: ${is} mm became ${was} mm`]);
});

it('offers the job on the page, designs, revisions that can be read, and kept jobs, and begins with the last revision', () => {
  const { job } = demoJobs[0]!;
  const kept = { id: 'seat', etag: '', saved: '', job };
  const named = { name: 'Seat', documentNumber: 'X-1', trouble: null };
  const revision = (id: string, trouble: string | null) => ({ id, revision: id.toUpperCase(), trouble });
  const state = {
    ...emptyState,
    draft: { job, entries: {}, parked: {}, kept },
    proposed: [job, job],
    workshop: {
      ...emptyState.workshop,
      jobs: [
        { ...named, id: 'seat' },
        { ...named, id: 'other', documentNumber: '' },
        { ...named, id: 'torn', trouble: 'It cannot be read.' },
      ],
      revisions: [revision('a', null), revision('b', null), revision('c', 'Its seal is broken.')],
    },
  } as unknown as State;
  const all = comparables(state);
  expect(all.map(({ label }) => label)).toEqual([
    ...['The job on the page', 'Design A', 'Design B', 'Revision A', 'Revision B'],
    ...['X-1, Seat, as last kept', 'Seat'],
  ]);
  expect(all.map(({ side }) => side).slice(3)).toEqual([
    { kept: 'seat', revision: 'a' },
    { kept: 'seat', revision: 'b' },
    { kept: 'seat' },
    { kept: 'other' },
  ]);
  expect(usualBefore(all, state)).toBe('revision b');
  expect(usualBefore(all.slice(0, 3), state)).toBe('design 0');
  expect(usualBefore([], state)).toBe('');
});
