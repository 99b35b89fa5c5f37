// Data: the words for finding a bin, for what its label leads to, and for the sheet of labels.
export const labelWords = {
  find: {
    title: 'Find a bin',
    heading: 'Which bin do you stand at?',
    field: 'Its code, as on the label',
    submit: 'Go to this bin',
    unknownHeading: 'No bin has this code.',
    unknownNext: 'Look at the label again, or pick the bin below.',
    unknown: (typed: string) => `No bin is called "${typed}".`,
  },
  scan: {
    title: (code: string) => `Bin ${code}`,
    heading: (code: string, name: string) => `Bin ${code}, ${name}.`,
    lead: 'Sign in to note what you do here.',
    byPassword: 'Other ways to sign in',
    unknown: 'No bin has this code.',
    unknownNext: 'The label may be old. Pick the bin from the list, or ask whoever looks after it.',
    toList: 'To the list of bins',
  },
  labels: {
    title: 'Labels for bins',
    heading: (n: number) => (n === 1 ? 'One label to print.' : `${n} labels to print.`),
    lead: 'A phone that reads the code opens the log of that bin. The code holds no secret.',
    which: 'For which bins?',
    paper: 'Paper',
    papers: { a4: 'A4', letter: 'Letter' },
    show: 'Show these labels',
    how: 'Print at full size, not fitted to the page. Four fit on a sheet. Cover them well: beds are wet.',
    print: 'Print the labels',
    onlyHere: (host: string) =>
      `No phone can open ${host}. Open this page at the address that phones use, then print. Whoever runs the machine sets it as PUBLIC_URL.`,
    tooLong: (now: number, most: number) =>
      `The address in the code has ${now} letters; ${most} or fewer are read best. Try one label from a step away first.`,
    qr: (code: string) => `Code for phones, leads to bin ${code}`,
    scan: 'Scan to note what you do.',
    orType: (host: string, code: string) => `Or open ${host} and type ${code}.`,
    hands: 'Gloves on. Wash your hands after.',
  },
} as const;
