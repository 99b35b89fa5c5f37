// Data: what is said where a link that somebody was given did not open by itself, or is of the older form, in Spanish.
export const handedWords = {
  handed: {
    join: 'Abre tu invitación.',
    reply: 'Abre el enlace de tu correo.',
    look: 'Abre el tablero que te dieron.',
    lead: 'Si la página sigue así, tu enlace llegó sin una parte. Algunos programas de correo quitan lo que va después de #.',
    field: 'Pega aquí el enlace entero',
    hint: 'Cópialo del mensaje, hasta el final.',
    open: 'Abrir',
    notWhole: 'Este no es el enlace entero. Acaba en 43 letras y cifras.',
    oldHeading: 'Este enlace es antiguo y aún funciona.',
    oldLead: 'Se abre con un toque.',
  },
};
