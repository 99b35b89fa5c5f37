// Data: the words of what is printed: the bin's card for a clipboard, and where and when a sheet was printed.
export const printing = {
  print: {
    printed: (day: string) => `Printed ${day}`,
    button: 'Print this card',
    link: 'Card for the clipboard',
    title: (code: string) => `Card of bin ${code}`,
    asOf: (day: string) => `As it stood on ${day}. Print a new card once a week.`,
    feedToday: (day: string) => `What it may take on ${day}`,
    little: (foods: string) => `Only a little of: ${foods}`,
    never: (foods: string) => `Never: ${foods}`,
    last: 'Last noted',
    write: 'Write here, and note it in the log later',
    columns: {
      day: 'Day',
      who: 'First name',
      what: 'What you did',
      amount: 'How much',
      zone: 'Zone',
      seen: 'Wet or dry, smell, worms',
    },
  },
} as const;
