/** Blade fuse ratings, A: ISO 8820-3:2015 (from memory). 32 V type up to 24 V circuits, 58 V type for 48 V. */
export const bladeFuses_A: readonly number[] = [1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30];

/** A fuse carries its rated current, but warm and for ever no more than this part of it (common practice: 1/1.25). */
export const fuseReserve = 1.25;

/** At twice its rating a blade fuse opens within five seconds (ISO 8820-3:2015, from memory). */
const fuseOpensAt = 2;

/** Whether so much current opens a blade fuse within five seconds: twice its rating. */
export const opensFuse = (fuse_A: number, current_A: number): boolean => current_A >= fuseOpensAt * fuse_A;
