import { type Issue, type Outcome, type Sizing, sizing } from '../../src/index.ts';
import { outsideBand } from './bands.ts';
import { isJobField } from './schema.ts';

/** Words of which one says what to change. */
const remedies =
  /\b(add|ask|change|check|choose|correct|cover|deepen|enlarge|enter|feed|fewer|give|leave|let|lower|make|measure|move|narrow|put|raise|remove|replace|set|share|shorten|shorter|split|swap|take|thinner|thicker|turn|use|vent|widen|wider)\b/i;

const unfit =
  /NaN|undefined|Infinity|\[object|\bnull\b|\d\.\d{6,}|(?<![.\w])1 (channels|slots|drivers|units|runs|cables|feeds|pieces|reels)\b/;

function wrongPlace({ place }: Pick<Issue, 'place'>): string[] {
  if (place.field !== undefined && !isJobField(place.field)) return [`no field of the job: ${place.field}`];
  return Object.values(place).some((at) => at !== undefined) ? [] : ['no place'];
}

/** What is wrong with a refusal: no remedy, no place, a field that is not there, or numbers nobody wants to read. */
export function wrongIssue(issue: Issue): string[] {
  const about = `refusal ${issue.code}`;
  return [
    ...wrongPlace(issue),
    ...(remedies.test(issue.sentence) && issue.sentence.endsWith('.')
      ? []
      : [`no remedy: ${issue.sentence}`]),
    ...(unfit.test(issue.sentence) ? [`unfit to read: ${issue.sentence}`] : []),
    ...Object.entries(issue.quantities)
      .filter(([, value]) => !Number.isFinite(value))
      .map(([name, value]) => `${name} is ${value}`),
  ].map((what) => `${about}: ${what}`);
}

/** Verdict, value, limit and margin of a finding must say the same. */
function wrongFinding({
  id,
  status,
  value,
  limit,
  margin,
  sentence,
  place,
}: Sizing['findings'][number]): string[] {
  const far = value === null || limit === null ? null : Math.abs(limit - value);
  return [
    ...(status === 'passes' && margin !== null && margin < 0 ? [`passes by ${margin}`] : []),
    ...(status === 'fails' && margin !== null && margin >= 0 ? [`fails by ${margin}`] : []),
    ...(margin !== null && far !== null && Math.abs(Math.abs(margin) - far) > 1e-9 * Math.max(1, far)
      ? [`margin ${margin} between ${value} and ${limit}`]
      : []),
    ...(unfit.test(sentence) ? [`unfit to read: ${sentence}`] : []),
    ...(place.field !== undefined && !isJobField(place.field) ? [`no field of the job: ${place.field}`] : []),
  ].map((what) => `finding ${id}: ${what}`);
}

const balances = (answer: Sizing): string[] => {
  const { circuit, heat, light } = answer;
  const used_W = circuit.lamps_W + circuit.stripCopper_W + circuit.cable_W + circuit.dimmer_W;
  return [
    // A strip too low in volts to conduct draws picowatts, of which a thousandth is below rounding.
    ...(Math.abs(heat.balance) < 1e-3 || heat.strip_W_per_m < 1e-6
      ? []
      : [`heat does not balance: ${heat.balance}`]),
    ...(Math.abs(light.balance) < 1e-6 ? [] : [`light does not balance: ${light.balance}`]),
    ...(circuit.unaccounted_A < 1e-6 ? [] : [`${circuit.unaccounted_A} A unaccounted for`]),
    ...(Math.abs(circuit.supply_W - used_W) < 1e-6 * Math.max(1, used_W)
      ? []
      : [`${circuit.supply_W} W supplied, ${used_W} W used`]),
  ];
};

function wrongAnswer(answer: Sizing): string[] {
  const shape = sizing.safeParse(answer).error?.issues ?? [];
  return [
    ...shape.slice(0, 3).map((issue) => `shape: ${issue.path.join('.')} ${issue.message}`),
    ...answer.findings.flatMap(wrongFinding),
    ...answer.notes
      .filter(({ sentence }) => unfit.test(sentence))
      .map(({ sentence }) => `note unfit to read: ${sentence}`),
    ...outsideBand(answer).slice(0, 3),
    ...balances(answer),
  ];
}

/** Everything an answer to any job must keep to, whichever job it is; empty where it keeps to all. */
export function wrongOutcome(outcome: Outcome<Sizing>): string[] {
  return outcome.ok ? wrongAnswer(outcome.value) : outcome.issues.flatMap(wrongIssue);
}

/** Furthest that a careful temperature may lie over the warm end of the quick one's band, K. */
const over_K = 0.5;

/** What care makes worse than the quick answer said it could be. */
export function worseThanQuick(quick: Outcome<Sizing>, careful: Outcome<Sizing>): string[] {
  if (!quick.ok) return careful.ok ? ['refused quick, answered careful'] : [];
  if (!careful.ok) return careful.issues.map((issue) => `answered quick, refused careful: ${issue.code}`);
  const was = new Map(quick.value.heat.temperatures.map((t) => [t.id, t]));
  return careful.value.heat.temperatures.flatMap((t) => {
    const high_degC = was.get(t.id)?.high_degC ?? Number.POSITIVE_INFINITY;
    return t.value_degC > high_degC + over_K
      ? [`${t.id}: ${t.value_degC} degC with care, ${high_degC} at most when quick`]
      : [];
  });
}
