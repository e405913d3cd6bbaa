import type { AskedCircuit, AskedFeed } from '../answer/asked.ts';
import type { FeedArrangement, Lead } from '../circuit/arrangements.ts';
import { resistanceAt } from '../circuit/copper.ts';
import type { Run } from '../circuit/description.ts';
import {
  leastCableSize,
  leastFeedPoints,
  longestRun,
  type SetVolts,
  voltsForMiddle,
} from '../circuit/inverse.ts';
import type { CircuitIssue } from '../circuit/issues.ts';
import { solveWarm } from '../circuit/warm.ts';
import { cablesUnder } from '../job/cable-catalogue.ts';
import { setVoltage_V } from '../job/resolve.ts';
import { found, type Outcome } from '../outcome.ts';
import { partnerOf } from '../sizing/circuit-of-job.ts';
import type { Prepared } from '../sizing/prepared.ts';
import type { Settled } from '../sizing/settle.ts';
import { stripTemperatureOf } from '../sizing/strip-temperature.ts';

/** The run with the largest drop and the cable it hangs on. */
interface WorstCase {
  readonly run: Run;
  readonly lead: Lead;
  readonly set_V: number;
  readonly limits: { readonly drop: number; readonly fall: number };
}

function worstCase({ wired, solution, description }: Settled): WorstCase {
  const { job, products } = wired;
  const worst = solution.runs.reduce((a, b) => (b.drop_V > a.drop_V ? b : a));
  const branch = wired.installation.branches.find(({ to }) => to.kind === 'pad' && to.run === worst.id)!;
  return {
    run: description.runs.find((run) => run.id === worst.id)!,
    lead: {
      length_m: branch.length_mm / 1000,
      ohm_per_m: resistanceAt(branch.conductor_ohm_per_km / 1000, job.cables.cable_degC),
      contact_ohm: job.feeds.terminal_mohm / 1000,
    },
    set_V: setVoltage_V(job, products),
    limits: { drop: job.site.dropLimit, fall: job.site.fallLimit },
  };
}

const arrangements: readonly { readonly name: string; readonly arrangement: FeedArrangement }[] = [
  { name: 'at one end', arrangement: { kind: 'start' } },
  { name: 'at both ends', arrangement: { kind: 'both' } },
  { name: 'in the middle', arrangement: { kind: 'between', feedCount: 1 } },
  { name: 'at two points between', arrangement: { kind: 'between', feedCount: 2 } },
  { name: 'crossed', arrangement: { kind: 'crossed' } },
];

function nameOf(arrangement: FeedArrangement): string {
  if (arrangement.kind === 'ends-and-between') return `at both ends and ${arrangement.feedCount - 2} between`;
  if (arrangement.kind === 'between' && arrangement.feedCount > 2)
    return `at ${arrangement.feedCount} points between`;
  const same = arrangements.find((one) => JSON.stringify(one.arrangement) === JSON.stringify(arrangement));
  return same?.name ?? arrangement.kind;
}

function feedOf(arrangement: FeedArrangement): AskedFeed {
  const { kind } = arrangement;
  if ('feedCount' in arrangement) return { kind, feedCount: arrangement.feedCount };
  return { kind, feedCount: kind === 'both' || kind === 'crossed' ? 2 : 1 };
}

/** The value of an answer, or null with its refusal kept as a remark. */
function orRemark<Value>(outcome: Outcome<Value, CircuitIssue>, remarks: string[]): Value | null {
  if (outcome.ok) return outcome.value;
  remarks.push(...outcome.issues.map((issue) => issue.sentence));
  return null;
}

function longest(at: WorstCase, remarks: string[]): AskedCircuit['longest'] {
  return arrangements.map(({ name, arrangement }) => {
    const fed = { run: at.run, set_V: at.set_V, arrangement, lead: at.lead };
    const byDrop = orRemark(longestRun(fed, { on: 'drop', ratio: at.limits.drop }), remarks);
    const byFall = orRemark(longestRun(fed, { on: 'light fall', ratio: at.limits.fall }), remarks);
    return {
      arrangement: name,
      feed: feedOf(arrangement),
      byDrop_m: byDrop?.length_m ?? null,
      byFall_m: byFall?.length_m ?? null,
    };
  });
}

/** Branches made of the cable a job chooses: links in a place are as thick as they have to be, and fuses are no cable. */
function bought({ wired }: Settled): string[] {
  const { cables, branches } = wired.installation;
  const links = new Set(cables.filter(({ kind }) => kind === 'link').map(({ id }) => id));
  return branches.flatMap(({ id, cable }) =>
    cable === null || links.has(cable) ? [] : [partnerOf(id, wired)],
  );
}

/** A fuse is chosen for its cable and has ohms of its own. */
const fusesMayChange =
  'With another cable other fuses may fit; here they stay as they are. Choose the cable and read the drop anew.';

function sizes(settled: Settled, at: WorstCase, remarks: string[]) {
  const { description, wired } = settled;
  const onSale = cablesUnder(wired.job.site.rules);
  const least = orRemark(
    leastCableSize(description, {
      cables: bought(settled),
      conductor_degC: wired.job.cables.cable_degC,
      limit: { on: 'drop', ratio: at.limits.drop },
      sizes: onSale.map(({ id, conductor_ohm_per_km }) => ({ id, ohm_per_m: conductor_ohm_per_km / 1000 })),
    }),
    remarks,
  );
  const tried = least?.tried ?? [];
  return {
    sizes: tried.map(({ id, reached }) => ({
      entry: id,
      name: onSale.find((cable) => cable.id === id)!.name,
      drop: reached,
      enough: reached <= at.limits.drop,
    })),
    leastSize: least?.id ?? null,
  };
}

const mostFeeds = 6;

function feeds(at: WorstCase, remarks: string[]) {
  const of = { run: at.run, set_V: at.set_V, lead: at.lead, mayFeedBetween: true, mostFeeds };
  const byDrop = orRemark(leastFeedPoints(of, { on: 'drop', ratio: at.limits.drop }), remarks);
  const byFall = orRemark(leastFeedPoints(of, { on: 'light fall', ratio: at.limits.fall }), remarks);
  const counts = Math.max(byDrop?.tried.length ?? 0, byFall?.tried.length ?? 0);
  const rows = Array.from({ length: counts }, (_, i) => {
    const drop = byDrop?.tried[i] ?? byDrop?.tried.at(-1);
    const fall = byFall?.tried[i] ?? byFall?.tried.at(-1);
    const { arrangement } = (byDrop?.tried[i] ?? fall ?? drop)!;
    return {
      feedCount: i + 1,
      arrangement: nameOf(arrangement),
      feed: feedOf(arrangement),
      drop,
      fall,
    };
  });
  return {
    feeds: rows.map(({ drop, fall, ...row }) => ({
      ...row,
      drop: drop?.reached ?? 0,
      fall: fall?.reached ?? 0,
      enough: (drop?.reached ?? 1) <= at.limits.drop && (fall?.reached ?? 1) <= at.limits.fall,
    })),
    leastFeedCount: byDrop && byFall ? Math.max(byDrop.feedCount, byFall.feedCount) : null,
  };
}

/** A driver can commonly be trimmed by a tenth either way (memory). */
const trim = 0.1;

const mostRounds = 12;
const settled_V = 1e-6;

/** Volts that put the wall evenly about nominal, with the strip as warm as those volts make it. */
function middleVolts(prepared: Prepared, settled: Settled): Outcome<SetVolts, CircuitIssue> {
  const nominal_V = prepared.products.driver.output_V;
  const reach = { from_V: nominal_V * (1 - trim), to_V: nominal_V * (1 + trim) };
  let { description } = settled;
  let volts = voltsForMiddle(description, reach);
  for (let round = 0; volts.ok && round < mostRounds; round++) {
    const { set_V } = volts.value;
    const at = { ...description, sources: description.sources.map((source) => ({ ...source, set_V })) };
    const warm = solveWarm(at, stripTemperatureOf(prepared, prepared.law));
    if (!warm.ok) return warm;
    ({ description } = warm.value);
    volts = voltsForMiddle(description, reach);
    if (volts.ok && Math.abs(volts.value.set_V - set_V) < settled_V) break;
  }
  return volts;
}

function middle(prepared: Prepared, settled: Settled, remarks: string[]): AskedCircuit['middle'] {
  const volts = orRemark(middleVolts(prepared, settled), remarks);
  return volts && { set_V: volts.set_V, lowest: volts.lowestRatio, highest: volts.highestRatio };
}

/**
 * The circuit asked the other way round, of the worst run of a settled job: how long it could be in each
 * arrangement, how thin its cable, how few its feed points, and which volts put the wall evenly about nominal. A
 * question without an answer leaves its refusal among the remarks.
 */
export function askCircuit(prepared: Prepared, settled: Settled): Outcome<AskedCircuit, never> {
  const at = worstCase(settled);
  const remarks = settled.wired.installation.blocks.some(({ ways }) => ways.some(({ fuse }) => fuse !== null))
    ? [fusesMayChange]
    : [];
  return found({
    run: at.run.id,
    run_m: at.run.unitCount * at.run.unitLength_m,
    lead_m: at.lead.length_m,
    longest: longest(at, remarks),
    ...sizes(settled, at, remarks),
    ...feeds(at, remarks),
    middle: middle(prepared, settled, remarks),
    remarks: [...new Set(remarks)],
  });
}
