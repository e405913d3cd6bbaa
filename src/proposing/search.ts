import type { Job } from '../job/job.ts';
import { driverModels } from '../job/products.ts';
import { compareLists, priorityQueue } from '../numeric/priority-queue.ts';
import type { Judged } from '../sizing/size-job.ts';
import {
  fewestVolts_V,
  leastCables_cents,
  leastCopper_mm2_m,
  leastDelivered_W,
  leastDrivers,
  leastVolts_V,
} from './bounds.ts';
import { type Candidate, isFedAtEnd, jobOf } from './candidate.ts';
import { type CablingChoice, pricesOf } from './choices.ts';
import type { Fall } from './fallen.ts';
import { type Figures, figuresOf, warningsOf } from './figures.ts';
import { type Driven, feedsAt, type Laid, type Lying, type Space, type Standing } from './space.ts';
import { type Trial, tryJob } from './trial.ts';

/** A design that passes every check with care. */
export interface Passing {
  readonly id: string;
  readonly job: Job;
  readonly judged: Judged;
  readonly figures: Figures;
}

/** What is looked for: the least of this list, first difference first; never less of a whole design than of its parts. */
export type Aim = (figures: Figures) => readonly number[];

/** What sizing a design with its strip as cold as the room left: its figures, or what it fell by. */
type Cold =
  | { readonly verdict: 'passes'; readonly figures: Figures }
  | Pick<Trial & { verdict: 'falls' }, 'verdict' | 'fall' | 'dropOverLimit' | 'driverCount'>;

/** What sizing has shown so far, kept from one search to the next. */
export interface Known {
  readonly cold: Map<string, Cold>;
  readonly careful: Map<string, Passing | Fall>;
  /** The design that fell by the fewest checks. */
  nearest: Judged | null;
}

export const nothingKnown = (): Known => ({ cold: new Map(), careful: new Map(), nearest: null });

/** Designs by the check they fell by. */
export type Fallen = ReadonlyMap<string, { readonly fall: Fall; readonly count: number }>;

export interface Found {
  readonly best: Passing | null;
  /** Whether nothing that was left aside can be less. */
  readonly proved: boolean;
  /** What nothing that was left aside can be less than, by the aim. */
  readonly bound: readonly number[] | null;
  readonly fell: Fallen;
}

/** Strip, drivers, feeds and layout: what shares its ways of cable. */
interface Group {
  readonly p: number;
  readonly d: number;
  readonly f: number;
  readonly l: number;
  readonly laid: Laid;
  readonly driven: Driven;
  readonly lying: Lying;
  readonly cabling: readonly CablingChoice[];
  /** What some of its cabling came to, from which that of thinner or thicker follows. */
  readonly known: {
    readonly cabling: CablingChoice;
    readonly u: number;
    readonly driverCount: number;
    readonly fall: Fall | null;
    readonly dropOverLimit: number | null;
  }[];
}

/** Everything but the section: its group, cabling and kind of protection, with the least it comes to. */
interface Leaf {
  readonly group: Group;
  readonly c: number;
  readonly u: number;
  readonly least: Figures;
}

/** A part of a design, from the strip alone to the whole, sized. */
type Node =
  | { readonly kind: 'family'; readonly p: number }
  | {
      readonly kind: 'drivers';
      readonly p: number;
      readonly d: number;
      readonly laid: Laid;
      readonly driven: Driven;
      readonly least: Figures;
    }
  | { readonly kind: 'group'; readonly group: Group; readonly least: Figures }
  | { readonly kind: 'leaf'; readonly leaf: Leaf }
  | { readonly kind: 'whole'; readonly leaf: Leaf; readonly section: Standing; readonly least: Figures }
  | { readonly kind: 'passing'; readonly passing: Passing };

interface Waiting {
  readonly key: readonly number[];
  readonly order: readonly number[];
  readonly node: Node;
}

/** A quick sizing costs one for each run; the law of a section and a careful sizing about so much. */
const sectionEffort = 150;
const carefulEffort = 5;
/** Light of a section. */
const lightEffort = 5;

/** Groups of more cables than this are asked first whether the thickest is enough. */
const probedFrom = 3;

/** A drop beyond the limit by this is mended neither by the ohms of another fuse nor by a cooler strip. */
const farOver = 1.1;

/** Checks that more copper never fails and less never passes, and the other way about. */
const thickerIsBetter: ReadonlySet<string> = new Set([
  ...['voltage-drop', 'cable-fuse', 'no-fuse-fits', 'cable-capacity'],
]);
const thinnerIsBetter: ReadonlySet<string> = new Set(['way-room']);

/** Checks of what a cable may carry where it lies. */
const onCapacity: ReadonlySet<string> = new Set(['cable-fuse', 'no-fuse-fits', 'cable-capacity']);

/** Checks that another kind of protection may pass. */
const onProtection: ReadonlySet<string> = new Set([
  ...thickerIsBetter,
  ...[
    'far-short',
    'light-fall',
    'neighbour-difference',
    'driver-load',
    'driver-load-worst',
    'driver-current',
  ],
]);

/** Questions that strip, section and slots decide. */
const ofSection: ReadonlySet<string> = new Set(['light', 'heat', 'depth', 'set-out']);

/** Site-run conductors below this are a warning whatever their length. */
const surelyThin_mm2 = 1;

const nothingYet: Figures = {
  ...{
    price_cents: 0,
    strip_W: 0,
    driverCount: 1,
    rated_W: 0,
    buildUpCount: 0,
    copper_mm2_m: 0,
    feedPointCount: 0,
  },
  ...{ depth_mm: 0, jointCount: 0, warningCount: 0, thinness: 0 },
};

const isFall = (x: object): x is Fall => 'check' in x;

const isNoThicker = (a: CablingChoice, b: CablingChoice): boolean =>
  a.area_mm2 <= b.area_mm2 && a.trunk_mm2 <= b.trunk_mm2;

const needsEnd: Fall = {
  check: 'layout-needs-end-feed',
  title: 'Run to run goes with one feed at an end',
  sentence: 'Cables that go from run to run enter each run at one end and leave it at the other.',
};

/** Whether every zone is laid as the wall. */
const isWholeWall = ({ dimming }: Job): boolean => dimming.zones.every(({ layout }) => layout === null);

/** What no cable changes: run to run with feeds that are not at one end. */
const groupFall = (layout: string, feeds: Candidate['feeds'], job: Job): Fall | undefined =>
  layout === 'run to run' && !isFedAtEnd(feeds) && isWholeWall(job) ? needsEnd : undefined;

const failCount = ({ findings }: Judged): number =>
  findings.filter(({ status }) => status === 'fails').length;

/**
 * Looks for the design that an aim makes least, best first: a part of a design stands in the queue by the least that any
 * whole design with it can come to, a whole one by what it is, so that the first sized design to come out is the least of
 * all. Falls are found as early as they can be: by light and depth of a section, by its heat at the fewest watts, by what
 * is electrical with the strip as cold as the room, by the drop with thicker cables. Yields after each piece of work; stops
 * where the effort is spent, and then says not proved.
 *
 * @param start a design that passes, where one is known
 * @param effort in sized runs: a count, not a time, so that every machine gives the same answer
 * Check: `tests/proposing/search.test.ts`, against every design of small worlds sized one by one.
 */
export function* search(
  space: Space,
  aim: Aim,
  {
    known,
    effort,
    start,
  }: { readonly known: Known; readonly effort: number; readonly start: Passing | null },
): Generator<{ readonly fell: Fallen; readonly best: Passing | null }, Found> {
  const { choices, isPriced } = space;
  const queue = priorityQueue<Waiting>(
    (a, b) => compareLists(a.key, b.key) || compareLists(a.order, b.order),
  );
  const fell = new Map<string, { fall: Fall; count: number }>();
  const hot = new Map<Standing, Fall>();
  let spent = 0;
  let best: Passing | null = start;

  /** What cannot be less than the best is left aside. */
  const push = (node: Node, figures: Figures, order: readonly number[]): void => {
    const key = aim(figures);
    if (best === null || compareLists(key, aim(best.figures)) <= 0) queue.push({ key, order, node });
  };

  const note = (fall: Fall, count: number): void => {
    const entry = fell.get(fall.check);
    if (entry) entry.count += count;
    else if (count > 0) fell.set(fall.check, { fall, count });
  };

  const keepNearest = (judged: Judged | null): void => {
    if (judged && (known.nearest === null || failCount(judged) < failCount(known.nearest)))
      known.nearest = judged;
  };

  /** By what a section falls at the fewest watts, worked out once. */
  function heatFall(section: Standing): Fall | undefined {
    if (hot.has(section)) return hot.get(section);
    spent += sectionEffort;
    const fall = section.heatFall();
    if (fall) hot.set(section, fall);
    return fall;
  }

  /** Sections not known to be too hot. */
  const standing = ({ standing: all }: Laid): Standing[] => all.filter((section) => !hot.has(section));

  function openFamily(p: number): void {
    const { nominal_V } = space.families[p]!;
    const each = space.driverCount(nominal_V) * space.wiringCount;
    const { value: laid, falls } = space.laid(p);
    spent += lightEffort * space.families[p]!.picks.length;
    for (const fall of falls) note(fall, each);
    if (laid === null) return;
    for (const section of laid.standing) {
      const fall = heatFall(section);
      if (!fall) break;
      note(fall, each);
    }
    const left = standing(laid);
    if (left.length === 0) return;
    const figures: Figures = {
      ...nothingYet,
      price_cents: isPriced ? laid.reels_cents : 0,
      strip_W: laid.strip_W,
      buildUpCount: Math.min(...left.map((section) => section.buildUpCount)),
      depth_mm: Math.min(...left.map(({ at }) => at.depth_mm)),
      jointCount: laid.base.stripJointCount,
      warningCount: Math.min(...left.map(({ at }) => at.warningCount)),
    };
    for (const [d, drivers] of choices.drivers.entries()) {
      if (drivers.output_V !== nominal_V) continue;
      const driven = laid.driven(d);
      if (isFall(driven)) {
        note(driven, left.length * space.wiringCount);
        continue;
      }
      const price_cents = figures.price_cents + (isPriced ? driven.drivers_cents : 0);
      const least = { ...figures, price_cents, driverCount: driven.driverCount, rated_W: driven.rated_W };
      push({ kind: 'drivers', p, d, laid, driven, least }, least, [p, d]);
    }
  }

  function openDrivers({ p, d, laid, driven, least }: Node & { kind: 'drivers' }): void {
    for (const [f, feeds] of choices.feeds.entries()) {
      const lying = laid.lying(f);
      for (const [l, layout] of choices.layouts.entries()) {
        const cabling = choices.cabling(layout);
        const fall = isFall(lying) ? lying : groupFall(layout, feeds, laid.base.job);
        if (fall) note(fall, cabling.length * choices.fuses.length * standing(laid).length);
        if (fall || isFall(lying)) continue;
        const { feedPointCount } = lying;
        const figures = { ...least, feedPointCount, jointCount: least.jointCount + feedPointCount };
        const group = { p, d, f, l, laid, driven, lying, cabling, known: [] };
        push({ kind: 'group', group, least: figures }, figures, [p, d, f, l]);
      }
    }
  }

  const candidateOf = (
    { laid, d, f, l, cabling }: Group,
    c: number,
    u: number,
    at = laid.base,
  ): Candidate => ({
    at,
    drivers: choices.drivers[d]!,
    feeds: choices.feeds[f]!,
    layout: choices.layouts[l]!,
    cabling: cabling[c]!,
    fuses: choices.fuses[u]!,
  });

  /** Warnings of the section are counted with it. */
  function electricalFigures(judged: Judged): Figures {
    const electrical = warningsOf(judged).filter(({ question }) => !ofSection.has(question));
    return { ...figuresOf(judged, space), warningCount: electrical.length };
  }

  const orderOf = ({ group: { p, d, f, l }, c, u }: Pick<Leaf, 'group' | 'c' | 'u'>): number[] => [
    ...[p, d, f, l, c, u],
  ];

  /** Sized with the strip as cold as the room, where it draws least, drops least and asks for the fewest drivers. */
  function coldly(of: Pick<Leaf, 'group' | 'c' | 'u'>): Cold {
    const id = orderOf(of).join('.');
    const kept = known.cold.get(id);
    if (kept) return kept;
    const { setOut } = of.group.lying;
    spent += setOut.runs.length;
    const warm = jobOf(candidateOf(of.group, of.c, of.u));
    const strip_degC = warm.strip.strip_degC ?? warm.site.room_degC;
    const job = { ...warm, strip: { ...warm.strip, strip_degC } };
    const asked = { setOut, accuracy: 'quick', withHeat: false } as const;
    const first = tryJob(job, of.group.laid.base, asked);
    // What a cable may carry goes by the section it lies in: where that is too little, it is tried in the coolest.
    const { coolest } = of.group.laid;
    const trial =
      first.verdict === 'falls' && onCapacity.has(first.fall.check)
        ? tryJob(jobOf(candidateOf(of.group, of.c, of.u, coolest())), coolest(), asked)
        : first;
    const cold: Cold =
      trial.verdict === 'passes'
        ? { verdict: 'passes', figures: electricalFigures(trial.judged) }
        : {
            verdict: 'falls',
            fall: trial.fall,
            dropOverLimit: trial.dropOverLimit,
            driverCount: trial.driverCount,
          };
    known.cold.set(id, cold);
    return cold;
  }

  /** The same, remembered by the group for what is thinner or thicker. */
  function coldlyIn(of: Pick<Leaf, 'group' | 'c' | 'u'>): Cold {
    const cold = coldly(of);
    const { group, c, u } = of;
    const cabling = group.cabling[c]!;
    if (!group.known.some((one) => one.cabling === cabling && one.u === u))
      group.known.push({
        ...{ cabling, u, fall: null, dropOverLimit: null },
        ...(cold.verdict === 'passes' ? { driverCount: cold.figures.driverCount } : cold),
      });
    return cold;
  }

  function openGroup(group: Group, least: Figures): void {
    const { cabling, driven, lying } = group;
    const thickest = cabling.findIndex((one) => cabling.every((other) => isNoThicker(other, one)));
    if (cabling.length > probedFrom && thickest >= 0) coldlyIn({ group, c: thickest, u: 0 });
    const layout = choices.layouts[group.l]!;
    const isPlain = isWholeWall(driven.job);
    const job: Job = { ...driven.job, feeds: { ...driven.job.feeds, ...feedsAt(choices, group.f) } };
    for (const [c, one] of cabling.entries()) {
      const copper_mm2_m = isPlain ? leastCopper_mm2_m(layout, lying.ways, one) : 0;
      const warningCount = least.warningCount + (one.area_mm2 < surelyThin_mm2 ? 1 : 0);
      const { runs } = lying.setOut;
      const least_V = isPlain
        ? fewestVolts_V(job, driven.products, runs, { ...one, layout })
        : leastVolts_V(job, driven.products);
      const delivered_W = leastDelivered_W(job, driven.products, runs, least_V);
      const { drivers_cents, ...drivers } = leastDrivers(job, driven.products, delivered_W);
      const cables_cents = isPlain ? leastCables_cents(layout, lying.ways, pricesOf(job, one)) : 0;
      const price_cents = isPriced ? group.laid.reels_cents + drivers_cents + cables_cents : 0;
      const thinness = cabling.filter((other) => other !== one && isNoThicker(one, other)).length;
      const figures = { ...least, ...drivers, price_cents, copper_mm2_m, warningCount, thinness };
      pushLeaf({ group, c, u: 0, least: figures });
    }
  }

  const pushLeaf = (leaf: Leaf): void => push({ kind: 'leaf', leaf }, leaf.least, orderOf(leaf));

  /**
   * Whether more copper surely helps: where a run is fed from several points, thicker cables shift current from one to
   * another, and only a drop far over the limit says something of thinner ones.
   */
  const isSure = ({ lying }: Group, dropOverLimit: number | null): boolean =>
    lying.feedPointCount <= lying.setOut.runs.length || (dropOverLimit ?? 0) > farOver;

  /** What a thicker or a thinner cabling fell by, where this then falls by the same. */
  function knownFall({ group, c, u }: Leaf): Fall | undefined {
    const one = group.cabling[c]!;
    const same = group.known.find(({ cabling, u: by, fall, dropOverLimit }) => {
      if (fall === null) return false;
      const isOfKind = u === by || (dropOverLimit ?? 0) > farOver || fall.check === 'way-room';
      if (!isOfKind) return false;
      if (thickerIsBetter.has(fall.check)) return isNoThicker(one, cabling) && isSure(group, dropOverLimit);
      return thinnerIsBetter.has(fall.check) && isNoThicker(cabling, one);
    });
    return same?.fall ?? undefined;
  }

  /** The least of a leaf, knowing that thicker cables leave more volts and so never ask for fewer drivers. */
  function leastOf({ group, c, least }: Leaf): Figures {
    const thinner = group.known.filter(({ cabling }) => isNoThicker(cabling, group.cabling[c]!));
    const driverCount = Math.max(least.driverCount, ...thinner.map((one) => one.driverCount));
    const smallest_W = group.driven.rated_W / group.driven.driverCount;
    const rated_W = Math.max(least.rated_W, driverCount * smallest_W);
    const more = driverCount - least.driverCount;
    const cheapest_cents = Math.min(...driverModels(group.driven.products).map((m) => m.price_cents ?? 0));
    return {
      ...least,
      driverCount,
      rated_W,
      price_cents: least.price_cents + (isPriced ? more * cheapest_cents : 0),
    };
  }

  /** A kind of protection that comes later is tried where one before it does not pass, and it may change that. */
  function fallsBy(leaf: Leaf, fall: Fall): void {
    const others = choices.fuses.length - 1 - leaf.u;
    const count = standing(leaf.group.laid).length;
    const isLast = !onProtection.has(fall.check);
    note(fall, (isLast ? 1 + others : 1) * count);
    if (!isLast && others > 0) pushLeaf({ ...leaf, u: leaf.u + 1 });
  }

  /**
   * Where thin cables of a group have fallen already, one half way to the thickest is tried first: if that falls as well,
   * so does everything below it.
   */
  function probeThicker({ group, c, u }: Leaf): void {
    const one = group.cabling[c]!;
    const isHard = group.known.some(
      ({ fall, dropOverLimit }) =>
        fall !== null && thickerIsBetter.has(fall.check) && isSure(group, dropOverLimit),
    );
    const thicker = [...group.cabling.keys()].filter((i) => i !== c && isNoThicker(one, group.cabling[i]!));
    const isKnown = (i: number): boolean => known.cold.has(orderOf({ group, c: i, u }).join('.'));
    if (!isHard || thicker.length < 2 || thicker.some(isKnown)) return;
    const copper = (i: number): number => group.cabling[i]!.area_mm2 + group.cabling[i]!.trunk_mm2;
    const ordered = thicker.toSorted((a, b) => copper(a) - copper(b));
    coldlyIn({ group, c: ordered[ordered.length >> 1]!, u });
  }

  function openLeaf(leaf: Leaf): void {
    const same = knownFall(leaf);
    if (same) {
      fallsBy(leaf, same);
      return;
    }
    const least = leastOf(leaf);
    if (compareLists(aim(least), aim(leaf.least)) > 0) {
      pushLeaf({ ...leaf, least });
      return;
    }
    probeThicker(leaf);
    const thicker = knownFall(leaf);
    const cold: Cold = thicker
      ? { verdict: 'falls', fall: thicker, dropOverLimit: null, driverCount: 1 }
      : coldlyIn(leaf);
    if (cold.verdict === 'falls') {
      fallsBy(leaf, cold.fall);
      return;
    }
    for (const section of standing(leaf.group.laid)) {
      const figures = {
        ...cold.figures,
        buildUpCount: section.buildUpCount,
        depth_mm: section.at.depth_mm,
        warningCount: cold.figures.warningCount + section.at.warningCount,
      };
      const node: Node = { kind: 'whole', leaf, section, least: figures };
      if (best === null && section === standing(leaf.group.laid)[0]) openWhole(node);
      else push(node, figures, [...orderOf(leaf), section.index]);
    }
  }

  function carefully(id: string, { leaf, section }: Node & { kind: 'whole' }): Passing | Fall {
    const { group, c, u } = leaf;
    const { setOut } = group.lying;
    spent += carefulEffort * setOut.runs.length;
    const job = jobOf(candidateOf(group, c, u, section.at));
    const trial = tryJob(job, section.at, { setOut, accuracy: 'careful', withHeat: true });
    if (trial.verdict === 'passes')
      return { id, job, judged: trial.judged, figures: figuresOf(trial.judged, space) };
    keepNearest(trial.judged);
    if ((trial.dropOverLimit ?? 0) > farOver) group.known.push({ cabling: group.cabling[c]!, u, ...trial });
    return trial.fall;
  }

  const triedOn = new Set<string>();

  /** Once for all sections of a leaf. */
  function tryOtherProtection(leaf: Leaf, fall: Fall): void {
    const next = { ...leaf, u: leaf.u + 1 };
    const id = orderOf(next).join('.');
    if (!onProtection.has(fall.check) || next.u >= choices.fuses.length || triedOn.has(id)) return;
    triedOn.add(id);
    pushLeaf(next);
  }

  function openWhole(node: Node & { kind: 'whole' }): void {
    const { leaf, section } = node;
    const order = [...orderOf(leaf), section.index];
    const id = order.join('.');
    const answer = heatFall(section) ?? known.careful.get(id) ?? carefully(id, node);
    if (isFall(answer)) {
      if (!hot.has(section)) known.careful.set(id, answer);
      note(answer, 1);
      tryOtherProtection(leaf, answer);
      return;
    }
    known.careful.set(id, answer);
    if (best === null || compareLists(aim(answer.figures), aim(best.figures)) < 0) best = answer;
    push({ kind: 'passing', passing: answer }, answer.figures, order);
  }

  for (const p of space.families.keys()) {
    push({ kind: 'family', p }, { ...nothingYet, ...space.rough(p) }, [p]);
  }
  for (let next = queue.pop(); next; next = queue.pop()) {
    const { node } = next;
    if (node.kind === 'passing') return { best: node.passing, proved: true, bound: next.key, fell };
    if (spent > effort) return { best, proved: false, bound: next.key, fell };
    if (node.kind === 'family') openFamily(node.p);
    else if (node.kind === 'drivers') openDrivers(node);
    else if (node.kind === 'group') openGroup(node.group, node.least);
    else if (node.kind === 'leaf') openLeaf(node.leaf);
    else openWhole(node);
    yield { fell, best };
  }
  return { best, proved: true, bound: null, fell };
}
