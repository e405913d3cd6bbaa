import { join } from 'node:path';
import { z } from 'zod';
import { found, type Outcome, refused } from '../../src/outcome.ts';
import {
  type IssuedReading,
  measuredQuantities,
  type ReadingsKept,
  type ReadingToKeep,
  readingValue,
} from '../contract/issued-readings.ts';
import type { Disk } from './disk.ts';
import { writeDurably } from './durable-file.ts';
import { type StoreIssue, storeIssue } from './issues.ts';
import { expectFolder, makeFolder, readingsFolder } from './job-folder.ts';
import { historyOf } from './revision-history.ts';
import { readStored } from './stored-file.ts';
import { fileOf, folderOf, type Kept, noSuchJob, type Workshop } from './workshop.ts';

/** A value written into a box, as a line of the file: nothing is taken out of it, the last line of a box counts. */
const line = z.strictObject({
  row: z.string(),
  quantity: z.enum(measuredQuantities),
  value: readingValue.nullable(),
  by: z.string(),
  at: z.string(),
});

const format = { name: 'slotwatt-readings', version: 1 } as const;

const document = z.strictObject({
  format: z.strictObject({ name: z.literal(format.name), version: z.literal(format.version) }),
  revision: z.string(),
  written: z.array(line),
});

type Line = z.infer<typeof line>;

/** More lines than anybody writes into one test sheet; about 12 MB. */
const mostLines = 80_000;

const nameOf = (revision: string): string => `${revision}.json`;

const unreadable = (revision: string, reason: string): StoreIssue =>
  storeIssue(
    'readings-unreadable',
    `The readings of revision ${revision} cannot be read, so nothing was added to them. ${reason}`,
  );

const tooMany = (revision: string): StoreIssue =>
  storeIssue(
    'readings-full',
    `The readings of revision ${revision} were written ${mostLines} times over, and no more are taken: issue another revision and measure that.`,
  );

const noSuchRevision = (revision: string): StoreIssue =>
  storeIssue(
    'no-such-revision',
    `No revision "${revision}" of this job was issued: choose one from the list.`,
  );

async function linesOf(disk: Disk, folder: string, revision: string): Promise<Outcome<Line[], StoreIssue>> {
  const stored = await readStored(disk, { folder: join(folder, readingsFolder), name: nameOf(revision) });
  if (stored.kind === 'absent') return found([]);
  if (stored.kind === 'trouble') return refused(unreadable(revision, stored.sentence));
  const damaged = `The file "${readingsFolder}/${nameOf(revision)}" was changed or damaged: take it from your backup.`;
  try {
    const read = document.safeParse(JSON.parse(stored.file.text));
    return read.success ? found(read.data.written) : refused(unreadable(revision, damaged));
  } catch {
    return refused(unreadable(revision, damaged));
  }
}

const keyOf = ({ row, quantity }: { row: string; quantity: string }): string => `${quantity} ${row}`;

/** Every box as it stands, in the order they were first written. */
function boxesOf(lines: readonly Line[]): Map<string, IssuedReading> {
  const boxes = new Map<string, IssuedReading>();
  for (const each of lines) {
    const version = (boxes.get(keyOf(each))?.version ?? 0) + 1;
    boxes.set(keyOf(each), { ...each, version });
  }
  return boxes;
}

/** Whether the job and the revision are there at all; a revision in trouble keeps its readings. */
async function missing(workshop: Workshop, id: string, revision: string): Promise<StoreIssue | undefined> {
  if ((await fileOf(workshop, id)).kind === 'absent') return noSuchJob(id);
  const { past } = await historyOf(workshop.disk, folderOf(workshop, id), id, 'unregistered');
  return past.some((one) => one.id === revision) ? undefined : noSuchRevision(revision);
}

/** The readings taken on a revision. Refuses an unknown job or revision, and a file that cannot be read. */
export async function readingsOf(workshop: Workshop, id: string, revision: string): Kept<IssuedReading[]> {
  const issue = await missing(workshop, id, revision);
  if (issue) return refused(issue);
  const lines = await linesOf(workshop.disk, folderOf(workshop, id), revision);
  return lines.ok ? found([...boxesOf(lines.value).values()]) : lines;
}

/** A value that is there already is no new one, whoever wrote it. */
function sorted(boxes: ReadonlyMap<string, IssuedReading>, readings: readonly ReadingToKeep[]) {
  const news = readings.filter((one) => (boxes.get(keyOf(one))?.value ?? null) !== one.value);
  const theirs = (one: ReadingToKeep): IssuedReading[] => {
    const box = boxes.get(keyOf(one));
    return box && box.version !== one.version ? [box] : [];
  };
  return {
    kept: news.filter((one) => theirs(one).length === 0),
    conflicts: news.flatMap((one) => {
      const { row, quantity, value } = one;
      return theirs(one).map((box) => ({ row, quantity, value, theirs: box }));
    }),
  };
}

async function writeLines(
  disk: Disk,
  folder: string,
  revision: string,
  written: readonly Line[],
): Promise<void> {
  const readings = join(folder, readingsFolder);
  await expectFolder(disk, folder);
  await makeFolder(disk, readings);
  const head = `{"format":${JSON.stringify(format)},"revision":${JSON.stringify(revision)},"written":[`;
  const text = `${head}\n${written.map((each) => JSON.stringify(each)).join(',\n')}\n]}\n`;
  await writeDurably(disk, readings, [{ name: nameOf(revision), text }]);
}

/** Who fills in the boxes of which revision. */
export interface Measuring {
  readonly id: string;
  readonly revision: string;
  readonly by: string;
}

/**
 * Keeps readings of an issued revision, box by box: they are on the disk when the promise resolves. A box that was
 * written by somebody else meanwhile keeps what it holds and is named as a conflict. Refuses as `readingsOf`.
 */
export function keepReadings(
  workshop: Workshop,
  { id, revision, by }: Measuring,
  readings: readonly ReadingToKeep[],
): Kept<ReadingsKept> {
  return workshop.inTurn(id, async () => {
    const issue = await missing(workshop, id, revision);
    if (issue) return refused(issue);
    const folder = folderOf(workshop, id);
    const lines = await linesOf(workshop.disk, folder, revision);
    if (!lines.ok) return lines;
    const { kept, conflicts } = sorted(boxesOf(lines.value), readings);
    const now = { by, at: new Date().toISOString() };
    const more = kept.map(({ row, quantity, value, taken = now }) => ({ row, quantity, value, ...taken }));
    const written = [...lines.value, ...more];
    if (written.length > mostLines) return refused(tooMany(revision));
    if (more.length > 0) await writeLines(workshop.disk, folder, revision, written);
    return found({ readings: [...boxesOf(written).values()], conflicts });
  });
}
