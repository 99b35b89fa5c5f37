// Data: the words of the screen on a wall.
const count = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

export const wallWords = {
  wall: {
    title: 'Wall screen',
    heading: 'Show the board on a wall.',
    lead: 'Say how large the screen is and how far off people stand. Then the codes come out large enough to read.',
    inch: 'Screen size, corner to corner, in inches',
    inchHint: 'As on the box, such as 43.',
    inchFault: 'Say the size of the screen in inches, from 5 to 150.',
    metres: 'How far off people stand, in metres',
    feet: 'How far off people stand, in feet',
    farFault: 'Say how far off people stand, from 0.3 to 30 metres.',
    work: 'Work it out',
    letters: (mm: string, px: string) => `Letters must be ${mm} high: type of ${px}.`,
    allFit: (n: number) => `All ${count(n, 'bin fits', 'bins fit')} on one page.`,
    needsPages: (code: string, perPage: number, pages: number) =>
      `With ${code} this large, ${count(perPage, 'tile fits', 'tiles fit')} a page. That makes ${pages} pages.`,
    tooLarge: (code: string, far: string) =>
      `${code} does not fit this screen so large. The largest that fits can be read from ${far} at most.`,
    show: 'Show the wall',
    showFewer: (perPage: number) => `Show ${perPage} a page`,
    showAll: (far: string) => `Show all on one page, to be read from ${far}`,
    setUp: 'Set up',
    pause: 'Pause',
    goOn: 'Go on',
    paused: (since: string) => `Paused since ${since}`,
    pausedNext: 'Press “Go on” to see what is new.',
    page: (page: number, pages: number) => `Page ${page} of ${pages}`,
    fresh: 'New this minute',
    old: (age: string) => `${age} old`,
    oldNext: 'Nobody knows how the quiet bins are now.',
    shut: 'This screen may not see the board now. Sign in anew.',
    andMore: (n: number) => `and ${n} more in the list`,
    grid: 'Every bin of this page',
  },
} as const;
