// Data: the words of the page on which a programme is taken out as one file.
export const takeOut = {
  title: 'Take it with you',
  heading: 'Take the whole programme with you as one file.',
  lead: 'It is a zip. You can read it without Middenry, and Middenry can read it back.',
  inIt: 'What is in it',
  parts: [
    'every table as CSV, for a spreadsheet',
    'the same tables as JSON, with nothing lost',
    'all photos of bins',
    'a page in plain words that says what is what',
    'a checksum for each file',
  ],
  care: 'It holds names and addresses of people. Keep it where only you can open it. No passwords are in it.',
  fetch: 'Get the file',
  how: 'To bring it back on an empty machine, run: npx middenry import FILE.zip',
} as const;
