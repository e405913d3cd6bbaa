import { expect, it } from 'vitest';
import { eachVisit, objections, openDemo, type PageService, type Visit } from './browser.ts';

let now: Visit & { readonly service: PageService };
eachVisit((visit) => {
  now = visit;
});

const kept = [
  ...['Strip', 'Working level', 'How runs are fed', 'How cables are laid', 'Drivers'],
  ...['Aluminium under the strip', 'Kind of protection'],
];

it('proposes designs for what is left open, and applies one in one step of undo', async () => {
  const { page, service } = now;
  await openDemo(page, service.address, 'Window seat');
  await page.getByText('Whole designs for this wall').click();
  for (const name of kept) await page.getByRole('checkbox', { name, exact: true }).uncheck();
  await page.getByRole('button', { name: 'Propose designs' }).click();
  await page.locator('table.designs').waitFor();
  expect(await page.locator('table.designs thead').textContent()).toContain('Design A');
  // Six cables of the list, the present one among them.
  expect(await page.locator('propose-panel .proof').textContent()).toBe(
    'No cheaper design that passes exists among the 6 designs that the open choices allow.',
  );
  expect(await objections(page)).toEqual([]);
  const cable = () =>
    page
      .locator('[data-field="cables.entry"]')
      .first()
      .evaluate((s) => (s as HTMLSelectElement).value);
  const before = await cable();
  await page.locator('table.designs button.apply').last().click();
  await expect.poll(cable).not.toBe(before);
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await expect.poll(cable).toBe(before);
});
