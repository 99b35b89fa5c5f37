// Data: the words of what is printed, in Spanish.
export const printing = {
  print: {
    printed: (day: string) => `Impreso el ${day}`,
    button: 'Imprimir esta ficha',
    link: 'Ficha para la tablilla',
    title: (code: string) => `Ficha de la compostera ${code}`,
    asOf: (day: string) => `Como estaba el ${day}. Imprime una ficha nueva cada semana.`,
    feedToday: (day: string) => `Lo que puede recibir el ${day}`,
    little: (foods: string) => `Solo un poco de: ${foods}`,
    never: (foods: string) => `Nunca: ${foods}`,
    last: 'Lo último anotado',
    write: 'Escribe aquí y anótalo luego en el registro',
    columns: {
      day: 'Día',
      who: 'Nombre',
      what: 'Qué hiciste',
      amount: 'Cuánto',
      zone: 'Zona',
      seen: 'Humedad, olor, lombrices',
    },
  },
} as const;
