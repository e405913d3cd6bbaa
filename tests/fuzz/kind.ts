/** One kind of fuzzing: makes case after case, each from its seed and number alone, and says what broke. */
export interface Kind<Case> {
  readonly name: string;
  readonly make: (seed: number, number: number) => Case;
  /** What the case broke, in words; empty where it broke nothing. */
  readonly broken: (of: Case) => string[] | Promise<string[]>;
  /** A case from a file to replay; null where the file is of another kind. */
  readonly read: (text: string) => Case | null;
  /** Lets go of what the cases were run against, where that is more than the engine. */
  readonly close?: () => Promise<void>;
}

/** Whatever is thrown is broken, and said. */
export function thrown(error: unknown): string[] {
  const stack = error instanceof Error ? (error.stack ?? error.message) : String(error);
  return [`threw ${stack.split('\n').slice(0, 3).join(' | ')}`];
}

/** Runs cases by number and hands over each that broke something. */
export async function fuzz<Case>(
  kind: Kind<Case>,
  run: { readonly seed: number; readonly from: number; readonly count: number },
  onBroken: (number: number, of: Case, broken: readonly string[], took_ms: number) => void,
  clock: () => number = () => 0,
): Promise<{ readonly slowest: number; readonly slowest_ms: number }> {
  let [slowest, slowest_ms] = [run.from, 0];
  for (let number = run.from; number < run.from + run.count; number++) {
    const of = kind.make(run.seed, number);
    const begun_ms = clock();
    const broken = await kind.broken(of);
    const took_ms = clock() - begun_ms;
    if (took_ms > slowest_ms) [slowest, slowest_ms] = [number, took_ms];
    if (broken.length > 0) onBroken(number, of, broken, took_ms);
  }
  return { slowest, slowest_ms };
}
