import { createHash } from 'node:crypto';
import { z } from 'zod';
import { engineVersion } from '../../src/index.ts';
import { keptJob, type ListedJob } from '../contract/kept-jobs.ts';
import type { Disk } from './disk.ts';
import { dependedOn, writeOver } from './job-folder.ts';
import type { Memory } from './listing.ts';
import { readStored } from './stored-file.ts';
import type { Workshop } from './workshop.ts';

/** What the list of jobs last read of each, so that a service that starts reads only what changed since. */
export const memoryFile = '.slotwatt-list';

const format = { name: 'slotwatt-list', version: 1 } as const;

/** What another engine read may not be what this one would. */
const heading = z.strictObject({
  format: z.strictObject({ name: z.literal(format.name), version: z.literal(format.version) }),
  engine: z.literal(engineVersion),
  digest: z.string(),
});

const remembered = z.array(z.strictObject({ entry: keptJob, marks: z.array(z.string()) }));

const digestOf = (text: string): string => createHash('sha256').update(text).digest('hex');

/** What is remembered of a list as the text of its file: a heading, and the entries under the digest it names. */
export function memoryText(memory: Memory<ListedJob>): string {
  const entries = JSON.stringify(
    [...memory.values()].map(({ entry, marks }) => ({ entry, marks: marks.map(([, mark]) => mark) })),
  );
  return `${JSON.stringify({ format, engine: engineVersion, digest: digestOf(entries) })}\n${entries}\n`;
}

/** The largest that is read, in bytes: some hundred thousand jobs. */
const largest = 64 * 1024 * 1024;

/** What a text of that file says of the jobs in a folder; nothing where it is not whole or of another engine. */
export function memoryOf(root: string, text: string): Memory<ListedJob> {
  const [first = '', entries = ''] = text.split('\n');
  try {
    if (heading.parse(JSON.parse(first)).digest !== digestOf(entries)) return new Map();
    const seen = remembered.parse(JSON.parse(entries)).map(({ entry, marks }) => {
      const paths = dependedOn(root, entry.id, entry.revisions.length > 0);
      return [entry.id, { entry, marks: paths.map((path, i) => [path, marks[i] ?? ''] as const) }] as const;
    });
    return new Map(seen);
  } catch {
    return new Map();
  }
}

/** What was remembered of a folder's list when it was last written down. */
export async function readMemory(disk: Disk, root: string): Promise<Memory<ListedJob>> {
  const stored = await readStored(disk, { folder: root, name: memoryFile }, largest);
  return stored.kind === 'file' ? memoryOf(root, stored.file.text) : new Map();
}

/** Fewer jobs than these are read in less time than it takes to notice. */
const few = 100;

/** Whether so much was read since the list was written down that it is worth writing again: a twentieth of it. */
export function isWorthWriting(memory: Memory<ListedJob>, written: Memory<ListedJob>): boolean {
  const changed = [...memory].filter(([name, seen]) => written.get(name) !== seen).length;
  return changed > Math.max(few, memory.size / 20);
}

/** Writes down what is remembered of the list. Without it the next start reads every job, so that nothing depends on it. */
export async function writeMemory(workshop: Workshop, text: string): Promise<void> {
  try {
    await workshop.expectHeld();
    await writeOver(workshop.disk, workshop.root, [{ name: memoryFile, text }]);
  } catch {
    // A full disk, or a folder that another service took over.
  }
}
