import { z } from 'zod';
import type { Disk } from './disk.ts';
import type { NamedText } from './durable-file.ts';
import { savedByFile } from './job-folder.ts';
import { etagOf, readStored } from './stored-file.ts';

const savedBy = z.strictObject({ etag: z.string(), by: z.string() });

/** The file beside a job that says who saved it, in which version; none where nobody said. */
export function savedByFiles(text: string, by: string): NamedText[] {
  if (by === '') return [];
  return [{ name: savedByFile, text: `${JSON.stringify({ etag: etagOf(text), by })}\n` }];
}

/** Who saved this version of the job in a folder; empty where nobody said, or somebody else wrote since. */
export async function readSavedBy(disk: Disk, folder: string, etag: string): Promise<string> {
  const stored = await readStored(disk, { folder, name: savedByFile });
  if (stored.kind !== 'file') return '';
  try {
    const read = savedBy.safeParse(JSON.parse(stored.file.text));
    return read.success && read.data.etag === etag ? read.data.by : '';
  } catch {
    return '';
  }
}
