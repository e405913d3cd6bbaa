import type { Judged } from '../sizing/size-job.ts';
import { jobOf } from './candidate.ts';
import { ofSection, onCapacity } from './check-kinds.ts';
import { type Figures, figuresOf, warningsOf } from './figures.ts';
import { type Cabled, type Cold, orderOf } from './search-parts.ts';
import { candidateOf, type SearchState } from './search-state.ts';
import { type Trial, tryJob } from './trial.ts';

/** Warnings of the section are counted with it. */
function electricalFigures(state: SearchState, judged: Judged): Figures {
  const electrical = warningsOf(judged).filter(({ question }) => !ofSection.has(question));
  return { ...figuresOf(judged, state.space), warningCount: electrical.length };
}

/** What a cable may carry goes by the section it lies in: where that is too little, it is tried in the coolest. */
function tryColdly({ space }: SearchState, of: Cabled): Trial {
  const { base, coolest } = of.group.laid;
  const warm = jobOf(candidateOf(space, of));
  const strip_degC = warm.strip.strip_degC ?? warm.site.room_degC;
  const asked = { setOut: of.group.lying.setOut, accuracy: 'quick', shared: of.group.shared } as const;
  const first = tryJob({ ...warm, strip: { ...warm.strip, strip_degC } }, base, asked);
  if (first.verdict === 'passes' || !onCapacity.has(first.fall.check)) return first;
  return tryJob(jobOf(candidateOf(space, of, coolest())), coolest(), asked);
}

/** Sized with the strip as cold as the room, where it draws least, drops least and asks for the fewest drivers. */
function sizedColdly(state: SearchState, of: Cabled): Cold {
  state.spent += of.group.lying.setOut.runs.length;
  const trial = tryColdly(state, of);
  if (trial.verdict === 'passes')
    return { verdict: 'passes', figures: electricalFigures(state, trial.judged) };
  const { fall, dropOverLimit, driverCount } = trial;
  return { verdict: 'falls', fall, dropOverLimit, driverCount };
}

/** The same, worked out once, and remembered by the group for what is thinner or thicker. */
export function coldly(state: SearchState, of: Cabled): Cold {
  const id = orderOf(of).join('.');
  const cold = state.known.cold.get(id) ?? sizedColdly(state, of);
  state.known.cold.set(id, cold);
  const { group, c, u } = of;
  const cabling = group.cabling[c]!;
  if (!group.known.some((one) => one.cabling === cabling && one.u === u))
    group.known.push({
      ...{ cabling, u, fall: null, dropOverLimit: null },
      ...(cold.verdict === 'passes' ? { driverCount: cold.figures.driverCount } : cold),
    });
  return cold;
}
