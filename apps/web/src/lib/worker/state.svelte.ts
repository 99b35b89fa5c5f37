/** Whether a newer build of the pages waits to be used. */
export const builds = $state({ newer: false });
