import { compareLists } from '../numeric/priority-queue.ts';
import { knownFall, leastOf, probeThicker } from './cabling-falls.ts';
import { jobOf } from './candidate.ts';
import { farOver, onProtection } from './check-kinds.ts';
import { coldly } from './cold-sizing.ts';
import type { Fall } from './fallen.ts';
import { type Figures, figuresOf } from './figures.ts';
import { type Cold, isFall, type Leaf, orderOf, type Passing, type Whole } from './search-parts.ts';
import {
  candidateOf,
  heatFall,
  keepNearest,
  note,
  put,
  putLeaf,
  type SearchState,
  standing,
} from './search-state.ts';
import { tryJob } from './trial.ts';

/** A careful sizing costs about so many quick ones, each one for each run. */
const carefulEffort = 5;

/** A kind of protection that comes later is tried where one before it does not pass, and it may change that. */
function fallsBy(state: SearchState, leaf: Leaf, fall: Fall): void {
  const others = state.space.choices.fuses.length - 1 - leaf.u;
  const count = standing(state, leaf.group.laid).length;
  const isLast = !onProtection.has(fall.check);
  note(state, fall, (isLast ? 1 + others : 1) * count);
  if (!isLast && others > 0) putLeaf(state, { ...leaf, u: leaf.u + 1 });
}

/**
 * What passes cold waits as a whole design with each section. One that would be better than the best is sized with care at once
 * with the first of them: the sooner something good is known, the more need not be looked at.
 */
function putWholes(state: SearchState, leaf: Leaf, cold: Figures): void {
  const { aim } = state;
  for (const [i, section] of standing(state, leaf.group.laid).entries()) {
    const figures = {
      ...cold,
      buildUpCount: section.buildUpCount,
      depth_mm: section.at.depth_mm,
      warningCount: cold.warningCount + section.at.warningCount,
    };
    const whole = { leaf, section };
    const isBetter = state.best === null || compareLists(aim(figures), aim(state.best.figures)) < 0;
    if (i === 0 && isBetter) openWhole(state, whole);
    else put(state, { kind: 'whole', whole }, figures, [...orderOf(leaf), section.index]);
  }
}

/** Sized with the strip cold, unless what is known of other cables says that it falls. */
function coldOf(state: SearchState, leaf: Leaf): Cold {
  probeThicker(state, leaf);
  const fall = knownFall(leaf);
  return fall ? { verdict: 'falls', fall, dropOverLimit: null, driverCount: 1 } : coldly(state, leaf);
}

/** Opens everything but the section: what passes with its strip cold goes on with each section. */
export function openLeaf(state: SearchState, leaf: Leaf): void {
  const same = knownFall(leaf);
  const least = leastOf(state, leaf);
  if (same) fallsBy(state, leaf, same);
  else if (compareLists(state.aim(least), state.aim(leaf.least)) > 0) putLeaf(state, { ...leaf, least });
  else {
    const cold = coldOf(state, leaf);
    if (cold.verdict === 'falls') fallsBy(state, leaf, cold.fall);
    else putWholes(state, leaf, cold.figures);
  }
}

function carefully(state: SearchState, id: string, { leaf, section }: Whole): Passing | Fall {
  const { group, c, u } = leaf;
  const { setOut } = group.lying;
  state.spent += carefulEffort * setOut.runs.length;
  const job = jobOf(candidateOf(state.space, leaf, section.at));
  const trial = tryJob(job, section.at, { setOut, accuracy: 'careful', shared: group.shared });
  if (trial.verdict === 'passes')
    return { id, job, judged: trial.judged, figures: figuresOf(trial.judged, state.space) };
  keepNearest(state, trial.judged);
  if ((trial.dropOverLimit ?? 0) > farOver) group.known.push({ cabling: group.cabling[c]!, u, ...trial });
  return trial.fall;
}

/** Once for all sections of a leaf. */
function tryOtherProtection(state: SearchState, leaf: Leaf, fall: Fall): void {
  const next = { ...leaf, u: leaf.u + 1 };
  const id = orderOf(next).join('.');
  const isLast = next.u >= state.space.choices.fuses.length;
  if (!onProtection.has(fall.check) || isLast || state.triedOn.has(id)) return;
  state.triedOn.add(id);
  putLeaf(state, next);
}

/** Sizes a whole design with care: it passes, and may be the best, or falls. */
export function openWhole(state: SearchState, whole: Whole): void {
  const { aim, hot, known } = state;
  const { leaf, section } = whole;
  const order = [...orderOf(leaf), section.index];
  const id = order.join('.');
  const answer = heatFall(state, section) ?? known.careful.get(id) ?? carefully(state, id, whole);
  if (!hot.has(section)) known.careful.set(id, answer);
  if (isFall(answer)) {
    note(state, answer, 1);
    tryOtherProtection(state, leaf, answer);
    return;
  }
  if (state.best === null || compareLists(aim(answer.figures), aim(state.best.figures)) < 0)
    state.best = answer;
  put(state, { kind: 'passing', passing: answer }, answer.figures, order);
}
