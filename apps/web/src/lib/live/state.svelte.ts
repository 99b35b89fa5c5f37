/** Whether the page hears of changes; the head says so. `null` before anybody knows. `isPaused`: somebody holds it still. */
export const live = $state<{ on: boolean | null; since: Date | null; isPaused: boolean }>({ on: null, since: null, isPaused: false });
