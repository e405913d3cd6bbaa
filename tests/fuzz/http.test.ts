import { afterAll, expect, it } from 'vitest';
import { http } from './http.ts';
import { fuzz } from './kind.ts';

afterAll(() => http.close?.());

it.each([0, 200])('random requests break nothing, from number %i on', async (from) => {
  const found: string[] = [];
  const run = { seed: 1, from, count: 200 };
  await fuzz(http, run, (number, _, what) => void found.push(`${number}: ${what.join('; ')}`));
  expect(found).toEqual([]);
});
