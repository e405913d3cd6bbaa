import { describe, expect, it } from 'vitest';
import { decidingFirst } from '../../src/heat/deciding-limit.ts';
import { temperatureLimits } from '../../src/heat/limits.ts';

const timber = temperatureLimits({ touch: 'touched', stripRating_degC: 75 }).filter(
  ({ place }) => place === 'timber',
);

/** Timber has three limits: 60 °C to think again, 77 °C and 90 °C to say no. */
describe('the limit that decides', () => {
  it.each([
    [50, [60, 77, 90]],
    [60, [60, 77, 90]],
    [61, [60, 77, 90]],
    [77.1, [77, 60, 90]],
    [95, [77, 60, 90]],
  ])('timber at %d °C: %j', (high_degC, order) => {
    expect(decidingFirst(timber, high_degC).map(({ limit_degC }) => limit_degC)).toEqual(order);
  });

  it('is the same however the limits are listed, and there is none where there are no limits', () => {
    expect(decidingFirst(timber.toReversed(), 80)).toEqual(decidingFirst(timber, 80));
    expect(decidingFirst([], 80)).toEqual([]);
  });
});
