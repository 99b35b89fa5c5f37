// Data: the words of what goes on at a site, or at all of them: who comes, what is due, what is short, and the year in weeks.
export const around = {
  around: {
    comes: 'Who comes this week',
    nobody: 'No shift is set for the next seven days.',
    noneYet: 'nobody yet',
    due: 'What is due',
    nothingDue: 'Nothing is due this week.',
    on: (day: string) => `planned for the shift of ${day}`,
    more: (n: number) => (n === 1 ? 'One more can wait.' : `${n} more can wait.`),
    short: 'What runs short',
    nothingShort: 'Bedding lasts for the next four weeks.',
    left: (mass: string, day: string) => `${mass} left, used up by ${day}`,
    gone: 'none left',
    year: 'In and out in a year',
    came: (fed: string, bedding: string) => `In: ${fed} of scraps and ${bedding} of bedding.`,
    went: (castings: string) => `Out: ${castings} of castings.`,
    given: (hours: string, shifts: number) => `Time given: ${hours}, on ${shifts === 1 ? 'one shift' : `${shifts} shifts`}.`,
    strip: (most: string, week: string) =>
      `Each column is a week. Scraps stand up, castings hang down. The longest is ${most}, in the week of ${week}.`,
    quietYear: 'Nothing was noted in this year.',
    table: 'The same weeks as a table',
    tableName: 'What went in and out, week by week',
    week: 'Week of',
    columns: ['Scraps', 'Bedding', 'Castings', 'Hours'],
  },
} as const;
