import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { jobJsonSchema } from '../../src/job/job.ts';
import { branches, type FieldSchema } from '../../src/job/schema-path.ts';
import { fieldHelp } from '../../web/field-help.ts';
import { eachVisit, objections, openDemo, type PageService } from './browser.ts';

/** Every value of a job that somebody sets, with its name and what the document says of its bounds. */
function leaves(schema: FieldSchema, path = '', said = ''): { path: string; title: string; why: string }[] {
  const why = schema.description ?? said;
  return branches(schema).flatMap((branch) => {
    if (branch.properties)
      return Object.entries(branch.properties).flatMap(([key, inner]) => leaves(inner, `${path}.${key}`));
    if (branch.items) return leaves(branch.items, `${path}[]`);
    const { title } = branch.title === undefined ? schema : branch;
    if (branch.type === 'null' || title === undefined) return [];
    return [{ path, title, why: branch.description ?? why }];
  });
}

describe('a field of the job', () => {
  it('has one sentence that helps with it', () => {
    const all = leaves(jobJsonSchema() as FieldSchema);
    expect(all.length).toBeGreaterThan(150);
    const without = all.filter(({ title, why }) => fieldHelp({ title, why }) === undefined);
    expect(without).toEqual([]);
    for (const { path, title, why } of all)
      expect(fieldHelp({ title, why }), path).toMatch(/^[^a-z].*[.!?]$/s);
  });
});

describe('on the page', () => {
  let service: PageService;
  let page: Page;
  eachVisit((now) => {
    ({ page, service } = now);
  });

  it('every field is described by a sentence, which is seen while somebody is in it', async () => {
    for (const title of ['Foyer wall', 'Stair wall']) {
      await openDemo(page, service.address, title);
      await page.locator('job-form details').evaluateAll((folds) => {
        for (const fold of folds) (fold as HTMLDetailsElement).open = true;
      });
      const bare = await page.locator('job-form [data-field]').evaluateAll((fields) =>
        fields
          .filter((field) => {
            const ids = field.getAttribute('aria-describedby')?.split(' ') ?? [];
            const texts = ids.map((id) => document.getElementById(id)?.textContent?.trim() ?? '');
            return !texts.some((text) => /[a-z].*\.$/s.test(text));
          })
          .map((field) => (field as HTMLElement).dataset.field),
      );
      expect(bare, title).toEqual([]);
    }
    const help = page.locator('#field-panel-width_mm-help');
    expect((await help.boundingBox())!.height).toBeLessThan(2);
    await page.locator('[data-field="panel.width_mm"]').focus();
    expect((await help.boundingBox())!.height).toBeGreaterThan(10);
    expect(await objections(page)).toEqual([]);
  });
});
