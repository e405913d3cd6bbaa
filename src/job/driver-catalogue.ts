import type { DriverData } from './driver.ts';

/**
 * Typical constant-voltage drivers in the trade's power sizes. Efficiency, power factor, inrush and case size
 * are what data sheets of the trade commonly print (common practice, no single source); ambient rating 50 degC
 * with 2.5 % per kelvin beyond is the rule of thumb in the electrical references. The maker's sheet overrides.
 */
interface Size {
  readonly rated_W: number;
  readonly efficiency: number;
  readonly powerFactor: number;
  readonly inrush_A: number;
  readonly inrush_us: number;
  /** Drivers on one B16 breaker: sheets print about as the BEAMA guide of 2021 does (22 of 10 W, 8 of 75 W; secondary). */
  readonly onB16: number;
  readonly case_mm: readonly [length: number, width: number, height: number];
}

const sizes: readonly Size[] = [
  {
    rated_W: 15,
    efficiency: 0.82,
    powerFactor: 0.6,
    inrush_A: 20,
    inrush_us: 150,
    onB16: 22,
    case_mm: [120, 33, 18],
  },
  {
    rated_W: 20,
    efficiency: 0.84,
    powerFactor: 0.65,
    inrush_A: 25,
    inrush_us: 150,
    onB16: 20,
    case_mm: [130, 38, 20],
  },
  {
    rated_W: 30,
    efficiency: 0.85,
    powerFactor: 0.9,
    inrush_A: 30,
    inrush_us: 180,
    onB16: 16,
    case_mm: [150, 42, 22],
  },
  {
    rated_W: 40,
    efficiency: 0.86,
    powerFactor: 0.92,
    inrush_A: 35,
    inrush_us: 200,
    onB16: 13,
    case_mm: [165, 43, 24],
  },
  {
    rated_W: 60,
    efficiency: 0.88,
    powerFactor: 0.93,
    inrush_A: 40,
    inrush_us: 250,
    onB16: 9,
    case_mm: [180, 45, 28],
  },
  {
    rated_W: 75,
    efficiency: 0.88,
    powerFactor: 0.94,
    inrush_A: 45,
    inrush_us: 270,
    onB16: 8,
    case_mm: [195, 52, 30],
  },
  {
    rated_W: 100,
    efficiency: 0.89,
    powerFactor: 0.95,
    inrush_A: 50,
    inrush_us: 300,
    onB16: 7,
    case_mm: [210, 60, 31],
  },
  {
    rated_W: 150,
    efficiency: 0.91,
    powerFactor: 0.96,
    inrush_A: 55,
    inrush_us: 350,
    onB16: 5,
    case_mm: [225, 63, 34],
  },
  {
    rated_W: 200,
    efficiency: 0.92,
    powerFactor: 0.96,
    inrush_A: 60,
    inrush_us: 400,
    onB16: 4,
    case_mm: [235, 68, 38],
  },
  {
    rated_W: 240,
    efficiency: 0.92,
    powerFactor: 0.97,
    inrush_A: 65,
    inrush_us: 450,
    onB16: 4,
    case_mm: [245, 71, 38],
  },
  {
    rated_W: 320,
    efficiency: 0.93,
    powerFactor: 0.97,
    inrush_A: 70,
    inrush_us: 500,
    onB16: 3,
    case_mm: [255, 90, 43],
  },
];

/** What (EU) 2019/2020, annex II, allows a control gear with no load, and on standby (from memory). */
const typicalStandby_W = 0.5;

type Entry = Readonly<DriverData> & { readonly id: string };

const entry = (output_V: DriverData['output_V'], size: Size): Entry => ({
  id: `${output_V}V-${size.rated_W}W`,
  name: `${output_V} V ${size.rated_W} W driver`,
  output_V,
  rated_W: size.rated_W,
  outputCount: 1,
  current_A: Math.round((size.rated_W / output_V) * 100) / 100,
  tolerance: 0.03,
  efficiency: size.efficiency,
  powerFactor: size.powerFactor,
  standby_W: typicalStandby_W,
  inrush_A: size.inrush_A,
  inrush_us: size.inrush_us,
  perBreakerB16: size.onB16,
  length_mm: size.case_mm[0],
  width_mm: size.case_mm[1],
  height_mm: size.case_mm[2],
  clearance_mm: 20,
  fullLoadAmbient_degC: 50,
  derating_per_K: 0.025,
  highestAmbient_degC: 70,
  caseLimit_degC: 80,
  terminalConductors: 1,
  outputsDimTogether: false,
  control: 'none',
  price_cents: null,
});

export const driverCatalogue: readonly Entry[] = ([12, 24, 48] as const).flatMap((volts) =>
  sizes.map((size) => entry(volts, size)),
);
