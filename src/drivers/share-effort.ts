/** Trouble taken over sharing out: counted steps, so that every machine gives the same answer. */
export interface ShareEffort {
  /** Choices of drivers that are looked at, and that are tried. */
  readonly looks: number;
  readonly tries: number;
  /** Steps of the search in all. */
  readonly steps: number;
  /** Steps of all bounds of the relaxed problem, and of the filling of one driver within one. */
  readonly boundWork: number;
  readonly fillSteps: number;
}

/** Trouble taken at every keystroke, and for papers. */
export const quickSharing: ShareEffort = {
  ...{ looks: 200, tries: 1, steps: 4000, boundWork: 100_000, fillSteps: 300 },
};
export const carefulSharing: ShareEffort = {
  ...{ looks: 20_000, tries: 80, steps: 2_000_000, boundWork: 60_000_000, fillSteps: 3000 },
};
