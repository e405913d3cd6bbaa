import { z } from 'zod';
import { keptId } from '../contract/kept-jobs.ts';
import type { Disk } from './disk.ts';
import { writeDurably } from './durable-file.ts';
import { registerFile } from './job-folder.ts';
import { readStored } from './stored-file.ts';
import { StoreTrouble, unsure } from './trouble.ts';

const register = z.strictObject({
  format: z.strictObject({ name: z.literal('slotwatt-register'), version: z.literal(1) }),
  revisions: z.array(
    z.strictObject({
      sequence: z.int().min(1),
      id: keptId,
      revision: z.string(),
      issued: z.string(),
      digest: z.string(),
    }),
  ),
});

/** A revision as the register of the job names it: which, when, and the digest of its file. */
export type Registered = z.infer<typeof register>['revisions'][number];

/**
 * What was issued of the job in a folder, by number; undefined where there is no register, or one that says nothing.
 * Throws where the disk does not give it, so that it is not begun anew over what it holds.
 */
export async function readRegister(disk: Disk, folder: string): Promise<Registered[] | undefined> {
  const stored = await readStored(disk, { folder, name: registerFile });
  if (stored.kind === 'trouble') throw new StoreTrouble('register-unread', stored.sentence);
  if (stored.kind === 'absent') return undefined;
  try {
    const read = register.safeParse(JSON.parse(stored.file.text));
    return read.success ? read.data.revisions.toSorted((a, b) => a.sequence - b.sequence) : undefined;
  } catch {
    return undefined;
  }
}

/**
 * Writes the register of what was issued. Throws `unsure` where that fails: the revision itself is on the disk by
 * then, and its predecessor in it says where it belongs.
 */
export async function writeRegister(
  disk: Disk,
  folder: string,
  revisions: readonly Registered[],
): Promise<void> {
  const text = `${JSON.stringify({ format: { name: 'slotwatt-register', version: 1 }, revisions }, null, 2)}\n`;
  try {
    await writeDurably(disk, folder, [{ name: registerFile, text }]);
  } catch (error) {
    throw error instanceof StoreTrouble ? error : unsure(error);
  }
}
