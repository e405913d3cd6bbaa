import { createHash } from 'node:crypto';
import { revisionKey } from '../../src/job/revision-key.ts';
import { slugOf } from './slug.ts';

/** Characters of an id that spells a name out; longer names are told by their digest. */
const longest = 72;

/** An id that spells a name out by the numbers of its characters. */
function spelled(key: string): string {
  const id = `u-${[...key].map((letter) => letter.codePointAt(0)!.toString(16)).join('-')}`;
  if (id.length <= longest) return id;
  return `u-x${createHash('sha256').update(key).digest('hex').slice(0, 40)}`;
}

/**
 * The ids that a revision of this name can have, the first unless that is taken: the name itself where an id can
 * say it, and the name spelled out. No two names share the second, and none has the first of another; but
 * revisions of format 1 lie under ids that others may want. Empty for a name that says nothing.
 */
export function revisionIdsFor(name: string): readonly string[] {
  const key = revisionKey(name);
  if (key === '') return [];
  const isPlain = slugOf(key, '') === key && !key.startsWith('u-');
  return isPlain ? [key, spelled(key)] : [spelled(key)];
}
