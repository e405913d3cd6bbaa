/** Lets so many in at once; the others wait their turn or are turned away. */
export interface Gate {
  /** Resolves when there is room. Throws what `turnedAway` makes when too many wait, or when the signal says so. */
  enter(signal: AbortSignal): Promise<void>;
  leave(): void;
}

/** Makes a gate for `room` at once and `queueLimit` waiting. */
export function createGate(room: number, queueLimit: number, turnedAway: () => Error): Gate {
  const waiting: (() => void)[] = [];
  let inside = 0;

  function turn(signal: AbortSignal): Promise<void> {
    return new Promise((resolve, reject) => {
      const goIn = (): void => {
        signal.removeEventListener('abort', giveUp);
        resolve();
      };
      const giveUp = (): void => {
        waiting.splice(waiting.indexOf(goIn), 1);
        reject(turnedAway());
      };
      signal.addEventListener('abort', giveUp, { once: true });
      waiting.push(goIn);
    });
  }

  return {
    async enter(signal) {
      if (signal.aborted || (inside >= room && waiting.length >= queueLimit)) throw turnedAway();
      if (inside >= room) return turn(signal);
      inside++;
    },
    leave() {
      // Whoever goes in next takes the place of the one who leaves.
      const next = waiting.shift();
      if (next) next();
      else inside--;
    },
  };
}
