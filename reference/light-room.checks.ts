import { bouncedLight_lx, directLight_lx, type LitOpening } from '../src/light/room-light.ts';
import { elementFactor, type Vector3 } from '../src/numeric/element-factor.ts';
import type { Check } from './check.ts';

const howell = 'J. R. Howell, A Catalog of Radiation Configuration Factors';

type Row = Omit<Check, 'topic' | 'standing'> & { readonly standing?: Check['standing'] };

const light = (row: Row): Check => ({ topic: 'light', standing: 'derived', ...row });

/** A rectangle with a corner at the origin of the plane z = 0. */
const rectangle = (a: number, b: number): Vector3[] => [
  [0, 0, 0],
  [a, 0, 0],
  [a, b, 0],
  [0, b, 0],
];

/** A face opposite the common corner, looking at the plane of the rectangle. */
const opposite = (a: number, b: number): number =>
  elementFactor({ at: [0, 0, 1], normal: [0, 0, -1] }, rectangle(a, b));

/** A face before the corner and at right angles to the rectangle, looking along its edge b. */
const square = (a: number, b: number): number =>
  elementFactor({ at: [0, 0, 1], normal: [0, 1, 0] }, rectangle(a, b));

const factor = (id: string, quantity: string, equation: string, printed: number, computed: number): Check =>
  light({
    ...{ id: `element-factor-${id}`, quantity, source: `${howell}, ${equation}`, unit: '1' },
    ...{ printed, computed, tolerance: { absolute: 2e-6 } },
  });

/** A level slot w wide at a height, a kilometre to either side, with pi*L of 1 lm/m2. */
function endless(w: number, height: number): LitOpening {
  const [y0, y1] = [height - w / 2, height + w / 2];
  return {
    corners: [
      [-1000, y0, 0],
      [1000, y0, 0],
      [1000, y1, 0],
      [-1000, y1, 0],
    ],
    area_m2: 2000 * w,
    flux_lm: 2000 * w,
  };
}

/** A matt face of a square millimetre that gives 25 lx straight below it at 2.4 m: E = Phi/(pi*h^2). */
const smallSource: LitOpening = {
  corners: rectangle(0.001, 0.001),
  area_m2: 1e-6,
  flux_lm: 25 * Math.PI * 2.4 ** 2,
};

/** Light in the room: closed forms of view factors, a textbook's exercise, the integrating sphere. */
export const lightRoomChecks: readonly Check[] = [
  factor(
    'parallel-1-1',
    'F, element opposite the corner of a parallel square as wide as it is far',
    'element to parallel rectangle: (1/2π)(X/√(1+X²)·atan(Y/√(1+X²)) + Y/√(1+Y²)·atan(X/√(1+Y²)))',
    0.138532,
    opposite(1, 1),
  ),
  factor(
    'parallel-2-0.5',
    'F, element opposite the corner of a parallel rectangle 2 by 0.5 at 1',
    'element to parallel rectangle',
    // X 2, Y 0.5: 0.894427*atan(0.223607) + 0.447214*atan(1.788854) = 0.196763 + 0.474519; over 2π.
    0.106838,
    opposite(2, 0.5),
  ),
  factor(
    'perpendicular-1-1',
    'F, element at right angles to a square as wide as it is far',
    'element to perpendicular rectangle: (1/2π)(atan(1/Y) - Y/√(X²+Y²)·atan(1/√(X²+Y²)))',
    0.055734,
    square(1, 1),
  ),
  factor(
    'perpendicular-wide',
    'F, element at right angles to an endless half-plane',
    'element to perpendicular rectangle without end',
    0.25,
    2 * square(1e6, 1e6) - 0.25,
  ),
  light({
    id: 'room-endless-floor',
    quantity: 'Light on the floor 1 m before an endless level slot 0.2 m wide, 1 m up, πL of 1',
    source: `${howell}, element to endless strip: (sin φ2 - sin φ1)/2`,
    unit: 'lx',
    // sin(atan(1/0.9)) - sin(atan(1/1.1)) = 0.743294 - 0.672673 = 0.070621; half of it.
    printed: 0.035311,
    computed: directLight_lx({ at: [0, 0, 1], normal: [0, 1, 0] }, [endless(0.2, 1)]),
    tolerance: { absolute: 2e-6 },
  }),
  light({
    id: 'room-endless-facing',
    quantity: 'Light on a wall 2 m away straight before an endless level slot 0.2 m wide, πL of 1',
    source: `${howell}, element to endless strip: (sin φ2 - sin φ1)/2`,
    unit: 'lx',
    // sin(atan(0.05)) = 0.049938 either way.
    printed: 0.049938,
    computed: directLight_lx({ at: [0, 1, 2], normal: [0, 0, -1] }, [endless(0.2, 1)]),
    tolerance: { absolute: 2e-6 },
  }),
  light({
    id: 'room-small-source',
    quantity:
      'Light 1.8 m aside on a table 2.4 m below a small diffusing face that gives 25 lx straight below',
    source: 'H. C. Verma, Concepts of Physics, chapter 22, exercise on a diffuse plane source: 10.2 lux',
    standing: 'secondary',
    unit: 'lx',
    printed: 10.2,
    computed: directLight_lx({ at: [1.8, 0, 2.4], normal: [0, 0, -1] }, [smallSource]),
    tolerance: { absolute: 0.05 },
  }),
  light({
    id: 'room-bounced-sphere',
    quantity: 'Bounced light of 1,000 lm in a sphere of 10 m² with a coating of 0.9',
    source: 'W. E. Sumpner, Phil. Mag. 35 (1893): multiplier ρ/(1-ρ)',
    unit: 'lx',
    printed: 900,
    computed: bouncedLight_lx(1000, { area_m2: 10, reflectance: 0.9 }),
    tolerance: { absolute: 1e-6 },
  }),
];
