/**
 * How long a test waits for something before it is taken to hang, ms: the one limit of time in the tests, meant never to be
 * met by a slow or busy machine. Tests wait for conditions, not for time; what is about time has a clock of its own.
 */
export const hang_ms = 600_000;
