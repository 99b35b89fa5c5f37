/** What waits on this phone; the head of every page says so. */
export const outbox = $state({
  /** Mine, waiting for the network or for my signing in. */
  waiting: 0,
  /** Mine, refused: they wait for me. */
  needsYou: 0,
  /** My photos, waiting for their notes or for the network. */
  photosWaiting: 0,
  /** My photos, refused: they wait for me, and no note waits for them. */
  photosNeedYou: 0,
  /** Of others who used this phone; they stay sealed until those sign in. */
  sealed: 0,
  /** When the oldest of mine was kept. */
  oldestAt: null as string | null,
  state: 'idle' as 'idle' | 'sending' | 'away' | 'sign-in' | 'update',
  /** Whether the browser promised not to clear this away by itself; null when it was not asked. */
  safe: null as boolean | null,
});
