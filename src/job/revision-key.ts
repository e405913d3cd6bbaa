/**
 * What two names of revisions have in common when people read them as the same: case, and how a letter is put
 * together, do not tell them apart, and neither does space around them. Everything else does: `A` and `Å` are two,
 * and so are `C-1` and `C.1`.
 */
export function revisionKey(name: string): string {
  return name.normalize('NFC').trim().replaceAll(/\s+/g, ' ').toLowerCase().normalize('NFC');
}
