// Data: the words of flags that were seen or put aside.
const count = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

export const asideWords = {
  aside: {
    means: 'What this means',
    open: 'Seen, or put aside',
    seen: 'I have seen it',
    seenBy: (who: string, when: string) => `Seen by ${who}, ${when}.`,
    asideBy: (who: string, day: string) => `Put aside by ${who} until ${day}.`,
    asideUntil: (day: string) => `Put aside until ${day}.`,
    somebody: 'somebody',
    seenPlain: (when: string) => `Seen, ${when}.`,
    reason: 'Why put it aside?',
    until: 'Until when?',
    days: (n: string) => `For ${n}`,
    put: 'Put it aside',
    back: 'Take it up again',
    note: 'Its mark stays on the board. It comes back on the list by itself, at once if it gets worse.',
    counted: (n: number) => `${n} put aside`,
    heading: (n: number) => (n === 0 ? 'Nothing is put aside.' : `${count(n, 'bin is', 'bins are')} put aside.`),
  },
} as const;
