import { expect, it } from 'vitest';
import { fuzz } from './kind.ts';
import { store } from './store.ts';

it('keeps old bytes or new ones through random operations, failing disks and stops', async () => {
  const broken: string[] = [];
  await fuzz(store, { seed: 4747, from: 0, count: 25 }, (number, _, words) =>
    broken.push(`number ${number}: ${words.join(' ')}`),
  );
  expect(broken).toEqual([]);
});
