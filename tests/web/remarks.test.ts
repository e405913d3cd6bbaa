import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { demoJobs, sizeJob } from '../../src/index.ts';
import { eachVisit, openDemo, type PageService } from './browser.ts';

let service: PageService;
let page: Page;

eachVisit((now) => {
  ({ page, service } = now);
});

describe('what the engine remarks', () => {
  it('stands with the section as its sentence, and among the cautions', async () => {
    const sized = sizeJob(demoJobs[1]!.job);
    if (!sized.ok) throw new Error('the demo job must have an answer');
    const sloping = sized.value.notes.find(({ onCover }) => onCover)!.sentence;
    await openDemo(page, service.address, 'Stair wall');
    for (const part of ['build-up-section', 'caution-list'])
      expect(await page.locator(part).textContent()).toContain(sloping);
    expect(await page.locator('main').textContent()).not.toContain('[object Object]');
  });
});
