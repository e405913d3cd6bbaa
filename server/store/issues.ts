import type { Issue } from '../../src/outcome.ts';

/** Why the store does not do what was asked; nothing was changed when one of these is returned. */
export type StoreIssue = Issue & {
  readonly code:
    | 'no-such-job'
    | 'unreadable-job'
    | 'later-format'
    | 'no-last-good-copy'
    | 'changed-meanwhile'
    | 'version-missing'
    | 'no-such-revision'
    | 'revision-unnamed'
    | 'revision-already-issued'
    | 'revision-damaged'
    | 'readings-unreadable'
    | 'readings-full'
    | 'not-in-the-bin'
    | 'no-such-product'
    | 'other-kind'
    | 'products-unreadable'
    | 'products-full';
};

/** Makes an issue of the store: its code, the sentence, and the field it points at if there is one. */
export function storeIssue(code: StoreIssue['code'], sentence: string, field?: string): StoreIssue {
  return { code, place: field === undefined ? {} : { field }, quantities: {}, sentence };
}
