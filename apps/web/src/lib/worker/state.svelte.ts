export const builds = $state({
  /** A newer build of the pages waits to be used. */
  newer: false,
  /** A part that this page wanted is not to be had: a newer build took its place, or the network went. */
  partGone: false,
});
