// Data: the words of flags that were seen or put aside, in Spanish.
export const asideWords = {
  aside: {
    means: 'Qué quiere decir',
    open: 'Visto, o dejar aparte',
    seen: 'Lo he visto',
    seenBy: (who: string, when: string) => `Lo ha visto ${who}, ${when}.`,
    asideBy: (who: string, day: string) => `${who} lo dejó aparte hasta el ${day}.`,
    asideUntil: (day: string) => `Aparte hasta el ${day}.`,
    somebody: 'alguien',
    seenPlain: (when: string) => `Visto, ${when}.`,
    reason: '¿Por qué dejarlo aparte?',
    until: '¿Hasta cuándo?',
    days: (n: string) => `Por ${n}`,
    put: 'Dejarlo aparte',
    back: 'Volver a atenderlo',
    note: 'Su marca sigue en el tablero. Vuelve a la lista sin que hagas nada, y enseguida si empeora.',
    counted: (n: number) => `${n} aparte`,
    heading: (n: number) => (n === 0 ? 'No hay nada aparte.' : n === 1 ? 'Una compostera está aparte.' : `${n} composteras están aparte.`),
  },
} as const;
