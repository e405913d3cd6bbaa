/** Runs a task when there is room for it. */
export type Limit = <Value>(task: () => Promise<Value>) => Promise<Value>;

/** Makes a limit: at most so many tasks are under way at once, the others wait in the order they came. */
export function createLimit(most: number): Limit {
  const waiting: (() => void)[] = [];
  let underWay = 0;
  return async (task) => {
    if (underWay >= most) await new Promise<void>((goOn) => waiting.push(goOn));
    else underWay++;
    try {
      return await task();
    } finally {
      // Whoever goes on next takes the place of the one who is done.
      const next = waiting.shift();
      if (next) next();
      else underWay--;
    }
  };
}
