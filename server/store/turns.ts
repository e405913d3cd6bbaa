/** Runs tasks that share a key one after the other; tasks of different keys do not wait for each other. */
export type Turns = <Value>(key: string, task: () => Promise<Value>) => Promise<Value>;

/**
 * Makes a keeper of turns. Checking a version and writing the next one must not be interrupted by another save of
 * the same job; this is what keeps the two together. A task that fails does not stop the next one.
 */
export function createTurns(): Turns {
  const last = new Map<string, Promise<unknown>>();
  return async (key, task) => {
    const mine = (last.get(key) ?? Promise.resolve()).then(task, task);
    last.set(key, mine);
    try {
      return await mine;
    } finally {
      if (last.get(key) === mine) last.delete(key);
    }
  };
}
