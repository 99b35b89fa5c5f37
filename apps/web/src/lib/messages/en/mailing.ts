// Data: the words for whether mail gets through, who was told, and text for a group chat.
export const mailing = {
  toldOf: {
    heading: 'Who was told of a change',
    unknown: 'The list did not come. Load this page again, or telephone everybody.',
    call: 'Telephone them: nothing shows that they know',
    read: 'read in the app',
    unread: 'not read in the app',
    mail: {
      none: 'no mail',
      waiting: 'mail waits to go',
      'handed-over': 'mail handed over',
      failed: 'mail failed',
      dropped: 'mail came too late',
    },
    line: (name: string, what: string) => `${name}: ${what}`,
    calendar: 'Put it in my calendar',
  },
  group: {
    title: 'Text for the group chat',
    heading: 'Open places, to paste into a group chat',
    lead: 'No names stand in it.',
    box: 'The text',
    copy: 'Copy it',
    copied: 'Copied.',
    site: 'Site',
    everySite: 'Every site',
    days: 'Days ahead',
    show: 'Show',
  },
} as const;
