// Data: las palabras para si llega el correo, a quién se avisó y el texto para un chat.
export const mailing = {
  toldOf: {
    heading: 'A quién se avisó de un cambio',
    unknown: 'La lista no llegó. Carga la página otra vez o llama a todos.',
    call: 'Llama por teléfono: nada muestra que lo sepan',
    read: 'leído en la aplicación',
    unread: 'sin leer en la aplicación',
    mail: {
      none: 'sin correo',
      waiting: 'el correo espera salir',
      'handed-over': 'correo entregado',
      failed: 'el correo falló',
      dropped: 'el correo llegó tarde',
    },
    line: (name: string, what: string) => `${name}: ${what}`,
    calendar: 'Ponerlo en mi calendario',
  },
  group: {
    title: 'Texto para el chat del grupo',
    heading: 'Plazas libres, para pegar en un chat',
    lead: 'No lleva nombres.',
    box: 'El texto',
    copy: 'Copiar',
    copied: 'Copiado.',
    site: 'Lugar',
    everySite: 'Todos los lugares',
    days: 'Días que vienen',
    show: 'Mostrar',
  },
} as const;
