/**
 * Lets many share one long task. Whoever asks while it runs gets the next run, together with all who asked
 * meanwhile: an answer never rests on what was there before the question, and at most one run is under way.
 */
export function sharedRun<Value>(task: () => Promise<Value>): () => Promise<Value> {
  let running: Promise<Value> | undefined;
  let next: Promise<Value> | undefined;

  function begin(): Promise<Value> {
    const run = task().finally(() => {
      running = undefined;
    });
    running = run;
    return run;
  }

  async function afterThisOne(): Promise<Value> {
    await running?.catch(() => undefined);
    next = undefined;
    return begin();
  }

  return () => {
    if (!running && !next) return begin();
    next ??= afterThisOne();
    return next;
  };
}
