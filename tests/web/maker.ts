import type { Page } from 'playwright-core';

/** What a maker does on the page, by role and label alone; every one of them is counted. Of several alike, `nth` is meant. */
export function makerOn(page: Page) {
  const done: string[] = [];
  return {
    done,
    async press(name: string | RegExp): Promise<void> {
      done.push(`press ${name}`);
      await page
        .getByRole('button', { name, exact: typeof name === 'string' })
        .first()
        .click();
    },
    /** Opens a step or a fold by its title. */
    async unfold(title: string): Promise<void> {
      done.push(`unfold ${title}`);
      await page.locator('summary').getByText(title, { exact: true }).click();
    },
    async fill(label: string, text: string, nth = 0): Promise<void> {
      done.push(`${label}: ${text}`);
      await page.getByRole('textbox', { name: label, exact: true }).nth(nth).fill(text);
    },
    async choose(label: string, option: RegExp, nth = 0): Promise<void> {
      const list = page.getByRole('combobox', { name: label, exact: true }).nth(nth);
      done.push(`${label}: ${option}`);
      const texts = await list.locator('option').allTextContents();
      await list.selectOption({ index: texts.findIndex((text) => option.test(text)) });
    },
  };
}
