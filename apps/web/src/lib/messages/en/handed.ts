// Data: what is said where a link that somebody was given did not open by itself, or is of the older form.
export const handedWords = {
  handed: {
    join: 'Open your invite.',
    reply: 'Open the link from your mail.',
    look: 'Open the board you were sent.',
    lead: 'If this page stays as it is, a part of your link got lost on the way. Some mail programs cut off what stands after the #.',
    field: 'Paste the whole link here',
    hint: 'Copy it from the message, right to its end.',
    open: 'Open',
    notWhole: 'This is not the whole link. It ends in 43 letters and digits.',
    oldHeading: 'This link is an older one, and it still works.',
    oldLead: 'One press opens it.',
  },
} as const;
