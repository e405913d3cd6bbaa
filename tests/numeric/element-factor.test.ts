import { describe, expect, it } from 'vitest';
import { elementFactor, type Vector3 } from '../../src/numeric/element-factor.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';

const square = (x: number, y: number, side: number): Vector3[] => [
  [x, y, 0],
  [x + side, y, 0],
  [x + side, y + side, 0],
  [x, y + side, 0],
];

const out: Vector3 = [0, 0, -1];
const up: Vector3 = [0, 1, 0];

describe('the factor from a plane element to a polygon', () => {
  it('is the double integral of cos*cos/(pi*r^2), counted in small squares', () => {
    const random = seededRandom(7);
    for (let trial = 0; trial < 40; trial++) {
      const at: Vector3 = [4 * random() - 2, 4 * random() - 2, 0.3 + 2 * random()];
      const [a, b] = [Math.PI * random(), 2 * Math.PI * random()];
      // Any way at all, also away from the polygon or across its plane.
      const normal: Vector3 = [Math.sin(a) * Math.cos(b), Math.sin(a) * Math.sin(b), Math.cos(a)];
      const n = 300;
      let sum = 0;
      for (let i = 0; i < n; i++) {
        for (let j = 0; j < n; j++) {
          const r = [(i + 0.5) / n - 0.4 - at[0], (j + 0.5) / n - 0.2 - at[1], -at[2]] as const;
          const r2 = r[0] ** 2 + r[1] ** 2 + r[2] ** 2;
          const cosHere = (r[0] * normal[0] + r[1] * normal[1] + r[2] * normal[2]) / Math.sqrt(r2);
          sum += (Math.max(0, cosHere) * (at[2] / Math.sqrt(r2))) / (Math.PI * r2 * n * n);
        }
      }
      expect(elementFactor({ at, normal }, square(-0.4, -0.2, 1))).toBeCloseTo(sum, 5);
    }
  });

  it('adds up over the parts of a polygon and does not mind where one begins or which way it runs', () => {
    const element = { at: [0.3, 0.2, 0.5] as Vector3, normal: out };
    const whole = elementFactor(element, square(0, 0, 1));
    const left: Vector3[] = [
      [0, 0, 0],
      [0.4, 0, 0],
      [0.4, 1, 0],
      [0, 1, 0],
    ];
    const right: Vector3[] = [
      [0.4, 0, 0],
      [1, 0, 0],
      [1, 1, 0],
      [0.4, 1, 0],
    ];
    expect(elementFactor(element, left) + elementFactor(element, right)).toBeCloseTo(whole, 12);
    expect(elementFactor(element, [...right.slice(2), ...right.slice(0, 2)].reverse())).toBeCloseTo(
      elementFactor(element, right),
      12,
    );
  });

  it('sees nothing of what lies behind its plane, and the upper half of what crosses it', () => {
    const element = { at: [0.5, 0.5, 1] as Vector3, normal: up };
    expect(elementFactor(element, square(0, -2, 1))).toBe(0);
    const upper: Vector3[] = [
      [0, 0.5, 0],
      [1, 0.5, 0],
      [1, 1, 0],
      [0, 1, 0],
    ];
    expect(elementFactor(element, square(0, 0, 1))).toBeCloseTo(elementFactor(element, upper), 12);
  });
});
