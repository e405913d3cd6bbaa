import { describe, expect, it } from 'vitest';
import {
  cableCatalogue,
  driverCatalogue,
  type Issue,
  type Job,
  newJob,
  readJob,
  sizeJob,
  sizing,
  stripCatalogue,
} from '../../src/index.ts';

type Path = readonly (string | number)[];
type Node = Record<string | number, unknown>;

const withoutId = <Entry extends { id: string }>({ id: _, ...data }: Entry): Omit<Entry, 'id'> => data;

/** The plain wall with every data-sheet field written out, so that each can be driven to its bounds. */
function writtenOut(): Job {
  const job = newJob();
  const find = <Entry extends { id: string }>(list: readonly Entry[], id: string) =>
    withoutId(list.find((entry) => entry.id === id)!);
  return structuredClone({
    ...job,
    strip: { ...job.strip, data: find(stripCatalogue, job.strip.entry) },
    drivers: {
      ...job.drivers,
      data: find(driverCatalogue, job.drivers.entry),
      set_V: 24,
      outputCeiling_W: 100,
    },
    cables: { ...job.cables, data: find(cableCatalogue, job.cables.entry) },
  }) as Job;
}

function numberPaths(node: unknown, path: Path = []): Path[] {
  if (typeof node === 'number') return [path];
  if (typeof node !== 'object' || node === null) return [];
  return Object.entries(node).flatMap(([key, value]) =>
    numberPaths(value, [...path, Array.isArray(node) ? Number(key) : key]),
  );
}

function withNumber(path: Path, value: number): Node {
  const job = writtenOut() as unknown as Node;
  const at = path.slice(0, -1).reduce<Node>((node, step) => node[step] as Node, job);
  at[path.at(-1)!] = value;
  return job;
}

/** Bounds as the document's own sentence gives them; none for a field that takes one of a list. */
function boundsOf(path: Path): readonly number[] {
  const read = readJob(withNumber(path, 1e12));
  const sentence = read.ok ? '' : read.issues.map((issue) => issue.sentence).join(' ');
  const match = /between (-?[\d.,]+).*? and (-?[\d.,]+)/.exec(sentence);
  return match ? [match[1]!, match[2]!].map((text) => Number(text.replaceAll(',', ''))) : [];
}

const cases = numberPaths(writtenOut()).flatMap((path) =>
  boundsOf(path).map((value): [string, Path, number] => [`${path.join('.')} = ${value}`, path, value]),
);

describe('every number of a job at both of its bounds', () => {
  it('covers the document', () => {
    expect(cases.length).toBeGreaterThan(120);
  });

  it.each(cases)('%s: answered in full or refused in a sentence, never thrown', (_, path, value) => {
    const read = readJob(withNumber(path, value));
    if (!read.ok) throw new Error(read.issues[0]!.sentence);
    const answer = sizeJob(read.value);
    if (answer.ok) expect(sizing.safeParse(answer.value).error?.issues).toBeUndefined();
    else for (const issue of answer.issues) expectUsable(issue, read.value);
  });
});

/** A refusal ends in a full sentence and leads to a field the page has. */
function expectUsable(issue: Issue, document: Job): void {
  expect(issue.sentence).toMatch(/\.$/);
  const { field } = issue.place;
  if (field === undefined) return;
  const steps = field.replaceAll(/\[(\d+)\]/g, (_, n: string) => `.${Number(n) - 1}`).split('.');
  expect(
    steps.reduce<unknown>((node, step) => (node as Node)?.[step], document),
    field,
  ).toBeDefined();
}

describe('walls of extreme counts', () => {
  it.each([
    ['one slot', { left_mm: 1000, right_mm: 1000, spacing: { by: 'count', count: 1 } }, 1],
    ['two hundred slots', { width_mm: 4, spacing: { by: 'count', count: 200 } }, 200],
    [
      'four hundred slots',
      { width_mm: 2, left_mm: 0, right_mm: 0, spacing: { by: 'count', count: 400 } },
      400,
    ],
  ] as const)('%s', (_, slots, count) => {
    const job = newJob();
    const answer = sizeJob({
      ...job,
      section: { ...job.section, batten_mm: 0 },
      slots: { ...job.slots, ...slots } as Job['slots'],
    });
    if (answer.ok) expect(answer.value.setOut.slots).toHaveLength(count);
    else expect(answer.issues[0]!.sentence).toMatch(/\.$/);
  });

  it('strip longer than any reel is joined, and its length is all there', () => {
    const job = newJob();
    const panel = { width_mm: 30000, height_mm: 400 };
    const slots = { ...job.slots, axis: 'level', left_mm: 100, right_mm: 100, foot_mm: 100, head_mm: 100 };
    const drivers = { ...job.drivers, entry: '24V-320W' };
    const answer = sizeJob({
      ...job,
      panel,
      drivers,
      slots: { ...slots, spacing: { by: 'count', count: 1 } } as Job['slots'],
    });
    if (!answer.ok) throw new Error(answer.issues[0]!.sentence);
    expect(answer.value.setOut.runs[0]!.pieces).toHaveLength(6);
    expect(answer.value.setOut.strip_m).toBeCloseTo(29.8, 6);
  });
});
