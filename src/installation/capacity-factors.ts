/** Air the tables of current-carrying capacity are made for, degC. */
const table_degC = 30;

/**
 * Factor for ambient temperature: `sqrt((Tmax - Ta)/(Tmax - 30))`, the law behind IEC 60364-5-52:2009 table B.52.14; no
 * current at the limit and above.
 * @param limit_degC what the insulation stands for ever, above 30: 70 for PVC, 90 for cross-linked
 * Check: the table's printed values for both in `reference/circuit-protection.checks.ts`.
 */
export function ambientFactor(ambient_degC: number, limit_degC: number): number {
  return Math.sqrt(Math.max(0, limit_degC - ambient_degC) / (limit_degC - table_degC));
}

/**
 * Factor for circuits bunched together, by their count: IEC 60364-5-52:2009 table B.52.17, item 1 (from memory). Counts
 * between the table's take the next greater count's factor.
 */
const groupingTable: readonly (readonly [number, number])[] = [
  [1, 1],
  [2, 0.8],
  [3, 0.7],
  [4, 0.65],
  [5, 0.6],
  [6, 0.57],
  [7, 0.54],
  [8, 0.52],
  [9, 0.5],
  [12, 0.45],
  [16, 0.41],
  [20, 0.38],
];

const [lastCount, lastFactor] = groupingTable.at(-1)!;

/**
 * Factor for a number of bunched circuits: the table's to 20, beyond it `0.38 sqrt(20/n)`, the same heat for the bundle
 * as a whole (judgement). From 9 circuits to 20 the table itself falls more slowly than that.
 * @param circuitCount whole, 1 and more; less throws `RangeError`
 * Check: printed values and both ends of the extrapolation in `tests/installation/capacity-factors.test.ts`.
 */
export function groupingFactor(circuitCount: number): number {
  if (!(circuitCount >= 1)) throw new RangeError(`no grouping factor for ${circuitCount} circuits`);
  const row = groupingTable.find((each) => circuitCount <= each[0]);
  return row?.[1] ?? lastFactor * Math.sqrt(lastCount / circuitCount);
}

/** What a reader has to know of the factor for so many circuits, in a sentence; null within the table. */
export function beyondGroupingTable(circuitCount: number): string | null {
  if (circuitCount <= lastCount) return null;
  return `Grouping factors are tabled to ${lastCount} circuits; for ${circuitCount} bunched the factor of ${groupingFactor(circuitCount).toFixed(2)} keeps the bundle as a whole as warm as ${lastCount} would be, which is a judgement.`;
}
