/**
 * What keeps the store from working at all, or leaves open whether it did. The message is a sentence for whoever
 * asked.
 */
export class StoreTrouble extends Error {
  readonly code: 'folder-in-use' | 'folder-lost' | 'not-a-folder' | 'register-unread' | 'unsure';

  constructor(code: StoreTrouble['code'], sentence: string, cause?: unknown) {
    super(sentence, { cause });
    this.code = code;
  }
}

/** The disk failed after the old state had begun to give way to the new one. */
export function unsure(cause: unknown): StoreTrouble {
  return new StoreTrouble(
    'unsure',
    'The disk failed at the last step, so it is not sure whether this was done: open the job or the list again and look, before you do it once more. Whatever you find there is whole.',
    cause,
  );
}

/** Whether an error is one that the system calls by one of these codes. */
export function isError(error: unknown, ...codes: readonly string[]): boolean {
  return error instanceof Error && 'code' in error && codes.includes(String(error.code));
}

/** Whether an error says that there is no such file or folder. */
export function isAbsent(error: unknown): boolean {
  return isError(error, 'ENOENT', 'ENOTDIR');
}
