/** Checks that more copper never fails and less never passes, and the other way about. */
export const thickerIsBetter: ReadonlySet<string> = new Set([
  ...['voltage-drop', 'cable-fuse', 'no-fuse-fits', 'cable-capacity'],
]);
export const thinnerIsBetter: ReadonlySet<string> = new Set(['way-room']);

/** Checks of what a cable may carry where it lies. */
export const onCapacity: ReadonlySet<string> = new Set(['cable-fuse', 'no-fuse-fits', 'cable-capacity']);

/** Checks that another kind of protection may pass. */
export const onProtection: ReadonlySet<string> = new Set([
  ...thickerIsBetter,
  ...['far-short', 'light-fall', 'neighbour-difference'],
  ...['driver-load', 'driver-load-worst', 'driver-current'],
]);

/** Questions that strip, section and slots decide. */
export const ofSection: ReadonlySet<string> = new Set(['light', 'heat', 'depth', 'set-out']);

/** A drop beyond the limit by this is mended neither by the ohms of another fuse nor by a cooler strip. */
export const farOver = 1.1;
