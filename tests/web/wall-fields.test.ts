import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { eachVisit, objections, openDemo, type PageService, settled } from './browser.ts';

let service: PageService;
let page: Page;

eachVisit((now) => {
  ({ page, service } = now);
});

const field = (name: string) => page.locator(`[data-field="${name}"]`);

async function unfolded(name: string) {
  await field(name).evaluate((element) => {
    for (let fold = element.closest('details'); fold; fold = fold.parentElement?.closest('details') ?? null) {
      fold.open = true;
    }
  });
  return field(name);
}

const words = () => page.locator('build-up-section').textContent();

/** Resistance to the air beyond as the page shows it, m2K/W. */
async function resistance(): Promise<number> {
  const row = page.locator('build-up-section tr.is-sum', { hasText: 'To air of' });
  return Number.parseFloat((await row.locator('td').textContent())!);
}

describe('the wall behind on the page', () => {
  it('begins as a common wall, layer by layer, takes other layers, and is kept when insulation is chosen', async () => {
    await openDemo(page, service.address, 'Window seat');
    await (await unfolded('section.behind')).selectOption({ label: 'a wall of layers, listed below' });
    await settled(page);
    // Plasterboard, 75 mm of air with a tenth of timber, plasterboard: 0.45 m2K/W, worked out by hand in the engine's tests.
    expect(await resistance()).toBe(0.45);
    expect(await words()).toContain('U-value of the wall by itself');
    await (await unfolded('section.wall')).selectOption({ label: 'brick wall, plastered' });
    await settled(page);
    // Twice 0.013/0.4, 0.102/0.56 and 0.13.
    expect(await resistance()).toBeCloseTo(2 * 0.0325 + 0.1821 + 0.13, 1);
    const before = await resistance();
    await page.getByText('3 layers, from the backing outwards').click();
    await page.getByRole('button', { name: 'Add an air gap behind the backing' }).click();
    await settled(page);
    expect(await resistance()).toBeCloseTo(before + 0.175, 1);
    expect(await field('section.wall.layers[1].material').inputValue()).toBe('air, not ventilated');
    await field('section.wall.layers[3].conductivity_W_per_mK').fill('0.28');
    await settled(page);
    expect(await resistance()).toBeCloseTo(before + 0.175 + 0.182, 1);
    await field('section.behind').selectOption({ index: 0 });
    await settled(page);
    expect(await words()).not.toContain('Wall behind, from the backing');
    await field('section.behind').selectOption({ index: 2 });
    await settled(page);
    expect(await field('section.wall.layers[3].conductivity_W_per_mK').inputValue()).toBe('0.28');
    expect(await objections(page)).toEqual([]);
  });

  it('asks for the warmest air outside in a sentence at its field', async () => {
    await openDemo(page, service.address, 'Window seat');
    await (await unfolded('section.behind')).selectOption({ index: 2 });
    await (await unfolded('section.wall.beyond')).selectOption({ label: 'outside air' });
    await page.waitForSelector('main[data-standing="refused"]');
    expect(await page.locator('.message.is-refused').textContent()).toContain('enter the warmest it gets');
    await field('section.wall.beyond_degC').fill('38');
    await settled(page);
    expect(await words()).toContain('Face towards outside air');
  });
});

describe('finishes and boards on the page', () => {
  it('take the figures of their maker, and the profile those of its finish', async () => {
    await openDemo(page, service.address, 'Window seat');
    await (await unfolded('section.strip')).selectOption({ index: 0 });
    await field('section.stripOffset_mm').fill('0');
    await field('section.cavity_mm').fill('40');
    await (await unfolded('section.profile')).selectOption({ index: 2 });
    await settled(page);
    expect(await field('section.profile.data.insideEmissivity').inputValue()).toBe('0.8');
    await field('section.profile.finish').selectOption({ label: 'bare' });
    expect(await field('section.profile.data.insideEmissivity').inputValue()).toBe('0.1');
    await (await unfolded('section.faces.back.emissivity')).fill('0.05');
    await (await unfolded('section.front.conductivity_W_per_mK')).fill('0.11');
    await settled(page);
    expect(await field('section.faces.back.emissivity').inputValue()).toBe('0.05');
  });
});
