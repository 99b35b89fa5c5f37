/** Whether the page hears of changes; the head says so. `null` before anybody knows. */
export const live = $state<{ on: boolean | null; since: Date | null }>({ on: null, since: null });
