import { type fuseKinds, fuseRemarks } from '../job/fuses.ts';

/** Kinds of device that may protect a cable; the job chooses one. */
export type FuseFamilyName = (typeof fuseKinds)[number];

/** Rating, A; volts over the device at that current, mV: typical, and the most to be reckoned with. */
type RatingRow = readonly [rating_A: number, typical_mV: number, most_mV: number];

export interface FuseFamily {
  readonly name: string;
  readonly standard: string;
  /** What the electrician has to see to before this kind is used. */
  readonly remark: string;
  readonly ratings: readonly RatingRow[];
  /** Part of its rating it carries for ever in a warm place. */
  readonly carries: number;
  /** Conventional fusing current over rating, I2/In: what opens it in the end, within the hour. */
  readonly fusingRatio: number;
  /** Current over rating that opens it within so many seconds: what a short has to reach to be noticed. */
  readonly opensAt: { readonly ratio: number; readonly within_s: number };
  /** Voltages it is made for, V, ascending. */
  readonly rated_V: readonly number[];
  /** Breaking capacity: so many amps, or so many times its rating where that is more; null where it limits by itself. */
  readonly breaking: { readonly least_A: number; readonly timesRating: number } | null;
}

/**
 * IEC 60127-2 standard sheets 3 and 5. Ratings, 1.5 In held for an hour, 2.1 In open within half an hour, 4 In within
 * 5 s, volts typical and, the standard's own bound, at most of sheet 5: makers' data sheets that quote it (secondary). Breaking of sheet 3,
 * "L": the more of 35 A and 10 In (secondary); sheet 5, "H", breaks 1,500 A. Eight tenths for ever: common practice.
 */
const cartridge: FuseFamily = {
  name: 'cartridge fuse 5 × 20 mm, time-lag',
  standard: 'IEC 60127-2',
  remark: fuseRemarks.cartridge,
  ratings: [
    [1, 180, 250],
    [1.25, 150, 250],
    [1.6, 130, 200],
    [2, 120, 190],
    [2.5, 100, 180],
    [3.15, 100, 140],
    [4, 90, 100],
    [5, 90, 100],
    [6.3, 70, 100],
    [8, 70, 100],
    [10, 70, 100],
  ],
  carries: 0.8,
  fusingRatio: 2.1,
  opensAt: { ratio: 4, within_s: 5 },
  rated_V: [250],
  breaking: { least_A: 35, timesRating: 10 },
};

/**
 * ISO 8820-3:2015, type C. Ratings; 1.35 In opens within 600 s, twice In within 5 s (from memory); 32 V, 58 V and 1,000 A
 * (secondary). Volts: typical of the trade (from memory), the most 1.3 times that (judgement). Eight tenths for ever:
 * common practice.
 */
const blade: FuseFamily = {
  name: 'blade fuse',
  standard: 'ISO 8820-3',
  remark: fuseRemarks.blade,
  ratings: [
    [1, 176, 229],
    [2, 141, 183],
    [3, 137, 178],
    [4, 142, 185],
    [5, 131, 170],
    [7.5, 116, 151],
    [10, 109, 142],
    [15, 102, 133],
    [20, 98, 127],
    [25, 92, 120],
    [30, 84, 109],
  ],
  carries: 0.8,
  fusingRatio: 1.35,
  opensAt: { ratio: 2, within_s: 5 },
  rated_V: [32, 58],
  breaking: { least_A: 1000, timesRating: 0 },
};

/**
 * A channel that measures its current and switches off by a transistor, set to whole amperes. Makers' data sheets
 * (secondary): off from 1.05 times the setting, at the latest at 1.45, within a second or five; about 0.2 V at 10 A, so
 * 20 mohm, twice that at most (judgement). Nine tenths for ever: a tenth for the spread of a strip's watts (judgement).
 */
const electronic: FuseFamily = {
  name: 'electronic channel, adjustable',
  standard: 'its maker’s data sheet',
  remark: fuseRemarks.electronic,
  ratings: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10].map(
    (setting_A) => [setting_A, 20 * setting_A, 40 * setting_A] as const,
  ),
  carries: 0.9,
  fusingRatio: 1.45,
  opensAt: { ratio: 1.45, within_s: 5 },
  rated_V: [30, 60],
  breaking: null,
};

/** Every family by its name in the job. */
export const fuseFamilies: Readonly<Record<FuseFamilyName, FuseFamily>> = { cartridge, blade, electronic };

/** A device of a family at one of its ratings, or at a setting. */
export interface Fuse {
  readonly family: FuseFamilyName;
  readonly rating_A: number;
}

/** Fusing current may be 1.45 times what the cable may carry: IEC 60364-4-43, clause 433.1 (secondary). */
const fusingOverCapacity = 1.45;

/**
 * The most a fuse of a family may be rated for a cable: `In <= Iz` and `I2 <= 1.45 Iz`, so `In <= 1.45/2.1 Iz`, 0.69 of
 * it, for a cartridge fuse.
 * @param capacity_A what the cable may carry after all factors, Iz
 * Source: IEC 60364-4-43:2008, clause 433.1 (secondary). Check: `tests/installation/fuse-families.test.ts`.
 */
export function mostRating_A(family: FuseFamilyName, capacity_A: number): number {
  return capacity_A * Math.min(1, fusingOverCapacity / fuseFamilies[family].fusingRatio);
}

/**
 * The smallest fuse of a family that carries a current for ever and protects a cable: `Ib/carries <= In`, and no more
 * than `mostRating_A`; null where no rating lies between.
 * @param design_A current to be carried, Ib, 0 and more
 * @param capacity_A what the cable may carry after all factors, Iz
 * Source: as `mostRating_A`; the margin over Ib is common practice. Check: `tests/installation/fuse-families.test.ts`.
 */
export function fuseBetween(family: FuseFamilyName, design_A: number, capacity_A: number): Fuse | null {
  const { ratings, carries } = fuseFamilies[family];
  const most_A = mostRating_A(family, capacity_A);
  const row = ratings.find(([rating_A]) => carries * rating_A >= design_A && rating_A <= most_A);
  return row === undefined ? null : { family, rating_A: row[0] };
}

/** The least current that opens a fuse within the seconds of its family, A. */
export const opens_A = ({ family, rating_A }: Fuse): number => fuseFamilies[family].opensAt.ratio * rating_A;

/** Whether so much current opens a fuse within the seconds of its family. */
export const opensFuse = (fuse: Fuse, current_A: number): boolean => current_A >= opens_A(fuse);

/**
 * Resistance a fuse puts into its cable, ohm: volts at rated current over that current, typical and at most. It is the
 * warm one, and at less current the fuse is cooler and has less; its holder comes on top.
 * @param fuse at a rating of its family; another throws `RangeError`
 * Source: beside the volts of each family. Check: `tests/installation/fuse-families.test.ts`.
 */
export function fuseResistance_ohm({ family, rating_A }: Fuse): { typical_ohm: number; most_ohm: number } {
  const row = fuseFamilies[family].ratings.find(([rating]) => rating === rating_A);
  if (row === undefined) throw new RangeError(`no ${family} fuse of ${rating_A} A`);
  return { typical_ohm: row[1] / 1000 / rating_A, most_ohm: row[2] / 1000 / rating_A };
}

/** A tenth to spare over the voltage of a driver, which may stand that much above its name (IEC 62384; secondary). */
const voltageReserve = 1.1;

/** The lowest voltage a family is made for that holds a driver's with a tenth to spare, V; null where there is none. */
export function fuseVoltage_V(family: FuseFamilyName, driver_V: number): number | null {
  return fuseFamilies[family].rated_V.find((rated_V) => rated_V >= voltageReserve * driver_V) ?? null;
}

/** The most current a fuse breaks, A; null for an electronic channel, which limits by itself. */
export function breakingCapacity_A({ family, rating_A }: Fuse): number | null {
  const { breaking } = fuseFamilies[family];
  return breaking === null ? null : Math.max(breaking.least_A, breaking.timesRating * rating_A);
}
