import type { Load } from './loads.ts';
import type { Kind } from './share-kinds.ts';

/** Loads on one driver, output by output, by their indices. */
export interface DriverFill {
  readonly outputs: readonly (readonly number[])[];
  readonly watts: number;
}

export interface FillsAsked {
  readonly loads: readonly Load[];
  /** Loads still to be carried, the largest first; the first of them has to be on the driver. */
  readonly open: readonly number[];
  readonly kind: Kind;
  /** Watts the driver may leave unused at most. */
  readonly mostWaste_W: number;
  readonly mostFills: number;
  readonly mostSteps: number;
}

interface OpenOutput {
  readonly zone: string | null;
  watts: number;
  readonly loads: number[];
}

interface Fills {
  readonly fills: readonly DriverFill[];
  /** Whether every fill that leaves room for none of the other loads is among them. */
  readonly isAll: boolean;
  readonly steps: number;
}

/** Outputs a load may go to: those of its zone with room, and a fresh one (null). */
function* outputsFor(
  load: Load,
  outputs: readonly OpenOutput[],
  total_W: number,
  kind: Kind,
): Generator<OpenOutput | null> {
  const { usable_W, output_W, own_W, outputCount, isOfOneZone } = kind;
  if (total_W + load.watts > usable_W) return;
  const seen = new Set<number>();
  for (const output of outputs) {
    if (output.zone !== load.zone || output.watts + load.watts > output_W || seen.has(output.watts)) continue;
    seen.add(output.watts);
    yield output;
  }
  const isOfOthers = isOfOneZone && outputs.some(({ zone }) => zone !== load.zone);
  const hasOutput = outputs.length < outputCount && !isOfOthers && own_W + load.watts <= output_W;
  // Where outputs give all that the driver does, a second one of a zone is of no use.
  const isOfUse = output_W < usable_W || seen.size === 0;
  if (hasOutput && isOfUse && total_W + own_W + load.watts <= usable_W) yield null;
}

/** Whether a driver is as good as one output: it has one, or all are of one zone and each gives what the driver does. */
export const hasOneOutput = ({ outputCount, isOfOneZone, output_W, usable_W }: Kind): boolean =>
  outputCount === 1 || (isOfOneZone && output_W >= usable_W);

/** Fills of a driver whose loads all go onto one output: sums alone decide. */
function onOneOutput({ loads, open, kind, mostWaste_W, mostFills, mostSteps }: FillsAsked): Fills {
  const { zone } = loads[open[0]!]!;
  const own = open.filter((i) => loads[i]!.zone === zone);
  const watts = own.map((i) => loads[i]!.watts);
  const room_W = Math.min(kind.usable_W, kind.output_W) - kind.own_W;
  const most_W = mostWaste_W - (kind.usable_W - kind.own_W - room_W);
  const behind = new Float64Array(own.length + 1);
  for (let p = own.length - 1; p >= 0; p--) behind[p] = behind[p + 1]! + watts[p]!;
  const fills: DriverFill[] = [];
  const taken: number[] = [];
  let [steps, isAll] = [0, true];
  const go = (from: number, free_W: number, leastSkipped_W: number): void => {
    if (fills.length >= mostFills || ++steps > mostSteps) {
      isAll = false;
      return;
    }
    let p = from;
    while (p < watts.length && watts[p]! > free_W) p++;
    if (p === watts.length) {
      if (free_W < leastSkipped_W && free_W <= most_W)
        fills.push({ outputs: [taken.map((at) => own[at]!)], watts: kind.own_W + room_W - free_W });
      return;
    }
    taken.push(p);
    go(p + 1, free_W - watts[p]!, leastSkipped_W);
    taken.pop();
    let next = p + 1;
    while (next < watts.length && watts[next] === watts[p]) next++;
    if (p > 0 && free_W - behind[next]! <= most_W) go(next, free_W, Math.min(leastSkipped_W, watts[p]!));
  };
  if (watts[0]! <= room_W) go(0, room_W, Number.POSITIVE_INFINITY);
  return { fills, isAll, steps };
}

/**
 * Ways of filling a driver with the first load still open and others, such that none of the rest would go on as well: with
 * any other way, one of these could stand in its place.
 */
export function driverFills(asked: FillsAsked): Fills {
  if (hasOneOutput(asked.kind)) return onOneOutput(asked);
  const { loads, open, kind, mostWaste_W, mostFills, mostSteps } = asked;
  const fills = new Map<string, DriverFill>();
  const outputs: OpenOutput[] = [];
  const skipped: number[] = [];
  const behind = [0];
  for (let p = open.length - 1; p >= 0; p--) behind.unshift(behind[0]! + loads[open[p]!]!.watts);
  let [steps, isAll] = [0, true];
  const keep = (total_W: number): void => {
    const fits = (i: number): boolean => !outputsFor(loads[i]!, outputs, total_W, kind).next().done;
    if (kind.usable_W - total_W > mostWaste_W || skipped.some(fits)) return;
    const held = outputs.map((output) => [...output.loads]);
    const key = held
      .map((each) => each.join(' '))
      .toSorted()
      .join('|');
    fills.set(key, { outputs: held, watts: total_W });
  };
  const put = (
    output: OpenOutput | null,
    i: number,
    then: (total_W: number) => void,
    total_W: number,
  ): void => {
    const { watts, zone } = loads[i]!;
    const added = watts + (output ? 0 : kind.own_W);
    const to = output ?? { zone, watts: 0, loads: [] };
    if (!output) outputs.push(to);
    const before = to.watts;
    to.watts += added;
    to.loads.push(i);
    then(total_W + added);
    to.loads.pop();
    to.watts = before;
    if (!output) outputs.pop();
  };
  const isSame = (i: number, j: number): boolean =>
    loads[i]!.watts === loads[j]!.watts && loads[i]!.zone === loads[j]!.zone;
  const go = (from: number, total_W: number): void => {
    if (fills.size >= mostFills || ++steps > mostSteps) {
      isAll = false;
      return;
    }
    let p = from;
    let options: (OpenOutput | null)[] = [];
    for (; p < open.length && options.length === 0; p++)
      options = [...outputsFor(loads[open[p]!]!, outputs, total_W, kind)];
    if (options.length === 0) {
      keep(total_W);
      return;
    }
    const i = open[p - 1]!;
    for (const option of options) put(option, i, (watts) => go(p, watts), total_W);
    if (p === 1) return;
    let next = p;
    while (next < open.length && isSame(open[next]!, i)) next++;
    if (kind.usable_W - total_W - behind[next]! > mostWaste_W) return;
    skipped.push(i);
    go(next, total_W);
    skipped.pop();
  };
  if (!outputsFor(loads[open[0]!]!, outputs, 0, kind).next().done) go(0, 0);
  return { fills: [...fills.values()], isAll, steps };
}
