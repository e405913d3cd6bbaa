/** Raised whenever numbers move, with a line in CHANGELOG.md that says why. */
const version = '0.6.0';

/** Digest of the numbers of a fixed set of sized jobs, written by `npm run version:numbers`. */
export const numbers = '473a0ef';

/**
 * Version of the engine, printed on papers and kept with every issued revision: two answers of one version have
 * the same numbers. Check: `tests/version.test.ts`.
 */
export const engineVersion = `${version}+${numbers}`;
