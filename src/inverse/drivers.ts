import type { AskedDrivers } from '../answer/asked.ts';
import type { Sizing } from '../answer/sizing.ts';
import { entriesOf } from '../job/catalogues.ts';
import type { Job } from '../job/job.ts';
import { driverChoices } from '../job/products.ts';
import { resolveProducts } from '../job/resolve.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import { placedInJob } from '../sizing/job-fields.ts';
import { type SizingIssue, sizeJob } from '../sizing/size-job.ts';
import { failingIn, whyNot } from './failing.ts';

type Choice = Job['drivers']['also'][number];

/** A choice of driver models: one alone, or several to be mixed. */
interface Candidate {
  readonly kind: AskedDrivers['rows'][number]['kind'];
  readonly choices: readonly Choice[];
}

/** The same job with other driver models and nothing else changed. */
function withModels(job: Job, [first, ...also]: readonly Choice[]): Job {
  return { ...job, drivers: { ...job.drivers, ...first!, also: [...also] } };
}

/** A mix takes the job's own model and eight more at most. */
const mostMixed = 9;

function candidatesOf(job: Job, output_V: number): Candidate[] {
  const own = driverChoices(job).map(({ entry, data, stock }) => ({ entry, data, stock }));
  // Where the drivers dim, others are taken to dim themselves alike.
  const { control } = own[0]!.data;
  const data = job.dimming.control === 'driver' && control !== undefined ? { control } : {};
  const others = entriesOf(job, 'driver')
    .filter((each) => each.output_V === output_V && own.every(({ entry }) => entry !== each.id))
    .map(({ id }): Choice => ({ entry: id, data, stock: null }));
  const everything = [...own, ...others.toReversed()].slice(0, mostMixed);
  return [
    { kind: 'as it is', choices: own },
    ...(own.length > 1 ? own.map((choice): Candidate => ({ kind: 'one model', choices: [choice] })) : []),
    ...others.map((choice): Candidate => ({ kind: 'one model', choices: [choice] })),
    ...(everything.length > own.length ? [{ kind: 'mix' as const, choices: everything }] : []),
  ];
}

/** Only the models a sizing took, so that applying it allows no others. */
function usedOf({ drivers }: Sizing, choices: readonly Choice[]): Choice[] {
  const used = new Set(drivers.drivers.map(({ model }) => model));
  return choices.filter((_, model) => used.has(model));
}

/** How many of each model, such as "2 × 24 V 150 W driver and 1 × 24 V 60 W driver". */
function namesOf({ drivers: { drivers } }: Sizing): string {
  const names = [...new Set(drivers.map(({ name }) => name))];
  return names
    .map((name) => `${drivers.filter((each) => each.name === name).length} × ${name}`)
    .join(' and ');
}

/** A mix that takes one model, or only those of the job, is one of the other rows over again. */
function isFurther({ kind, models }: AskedDrivers['rows'][number], job: Job): boolean {
  if (kind !== 'mix') return true;
  const own = new Set(driverChoices(job).map(({ entry }) => entry));
  return models.length > 1 && models.some(({ entry }) => !own.has(entry));
}

function rowOf(
  job: Job,
  { kind, choices }: Candidate,
  before: ReadonlySet<string>,
): AskedDrivers['rows'][number] {
  const sized = sizeJob(withModels(job, choices));
  const models = choices.map(({ entry, data }) => ({ entry, control: data.control ?? null }));
  const asked = choices.map(
    ({ entry }) => entriesOf(job, 'driver').find(({ id }) => id === entry)?.name ?? entry,
  );
  if (!sized.ok)
    return {
      ...{ kind, models, name: asked.join(' and '), driverCount: null, price_cents: null, load: null },
      ...{ input_W: null, passes: false, why: sized.issues[0]!.sentence, isProved: false },
    };
  const { drivers, findings } = sized.value;
  const why = whyNot(findings, ['drivers'], before);
  const used = kind === 'mix' ? usedOf(sized.value, choices) : choices;
  return {
    ...{ kind, models: used.map(({ entry, data }) => ({ entry, control: data.control ?? null })) },
    name: namesOf(sized.value),
    driverCount: drivers.drivers.length,
    price_cents: drivers.sharing.price_cents,
    load: Math.max(0, ...drivers.drivers.flatMap(({ outputs }) => outputs.map(({ load }) => load))),
    input_W: drivers.input_W,
    passes: why === null,
    why,
    isProved: drivers.sharing.isProved,
  };
}

const remarks = [
  'Each is the whole job sized quickly with these models and nothing else changed. It passes where no check on drivers fails, nor any other that does not fail as the job is.',
  'Where the light is dimmed by the drivers, those of the catalogue are taken to dim themselves as the one of the job does: see that there are such.',
];

/**
 * Which drivers would do: the models of the job as they are, each of them and each of the catalogue alone, and a mix of as
 * many as a job allows, of which only those it takes are given, and which is left out where they are no further choice. Refuses what has no drivers to compare: unknown products.
 * Check: `tests/inverse/drivers.test.ts`, each row against the job sized with it.
 */
export function askJobDrivers(job: Job): Outcome<AskedDrivers, SizingIssue> {
  const products = resolveProducts(job);
  if (!products.ok) return refused(...placedInJob(products.issues));
  const candidates = candidatesOf(job, products.value.strip.nominal_V);
  const before = failingIn(job);
  const rows = candidates.map((each) => rowOf(job, each, before));
  return found({ rows: rows.filter((row) => isFurther(row, job)), remarks });
}
