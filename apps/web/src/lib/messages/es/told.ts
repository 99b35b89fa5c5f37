// Data: the words for messages, reminders, mail and calendars, in Spanish.
import type { Said } from '../en/told.ts';

const count = (number: unknown, one: string, many: string) => `${number} ${number === 1 ? one : many}`;

export const told = {
  messages: {
    title: 'Mensajes',
    heading: (unread: number) => (unread === 0 ? 'Nada nuevo.' : `${count(unread, 'mensaje nuevo', 'mensajes nuevos')}.`),
    none: 'Aún no tienes mensajes. Aquí llegan los avisos y los cambios de tus turnos.',
    markRead: 'Ya los he leído',
    fresh: 'Nuevo',
    urgent: 'Urgente',
    over: 'Ya no vale',
    see: 'Ver el turno',
    settings: 'Avisos, correo y calendario',
    kinds: {
      'reminder-day': ({ site, when }: Said) => `Mañana tienes plaza en ${site}, ${when}.`,
      'reminder-hours': ({ site, when }: Said) => `Pronto empieza tu turno en ${site}, ${when}.`,
      'shift-changed': ({ site, when, was }: Said) => `Tu turno en ${site} ha cambiado. Era ${was}. Ahora es ${when}.`,
      'shift-cancelled': ({ site, when }: Said) => `El turno en ${site}, ${when}, se ha cancelado.`,
      'place-got': ({ site, when }: Said) => `Tienes plaza en ${site}, ${when}.`,
      'place-lost': ({ site, when }: Said) => `Ya no tienes plaza en ${site}, ${when}.`,
      'place-offered': ({ site, when, until }: Said) => `Hay una plaza libre en ${site}, ${when}. Te la guardamos hasta ${until}.`,
      'swap-offered': ({ site, when, facts }: Said) => `${facts.by ?? 'Alguien'} quiere pasarte una plaza en ${site}, ${when}.`,
      'swap-accepted': ({ site, when, facts }: Said) => `${facts.by ?? 'Alguien'} tomó tu plaza en ${site}, ${when}. Ya no tienes que ir.`,
      'rota-invitation': ({ site, when }: Said) => `¿Puedes ayudar en ${site}, ${when}? Di sí o no, sin dar razones.`,
      'needs-adult': ({ site, when }: Said) => `Viene alumnado a ${site}, ${when}, y faltan adultos.`,
      'late-entries': ({ facts }: Said) =>
        `Lo que anotó ${facts.by ?? 'alguien'} esperó ${count(Math.floor(Number(facts.hours) / 24), 'día', 'días')} en un teléfono. Ya está en el registro.`,
      upkeep: ({ facts }: Said) =>
        ({
          backup: 'La última copia es demasiado vieja, o no se pudo hacer una nueva.',
          drill: 'La prueba de restaurar una copia va con retraso, o no salió bien.',
          soundness: 'Hace dos días que no se leen los datos enteros.',
          disk: 'El disco está casi lleno.',
        })[String(facts.part)]?.concat(' La página de estado dice qué hacer.') ?? '',
      digest: ({ facts }: Said) =>
        [
          Number(facts.needsAdult) > 0 ? count(facts.needsAdult, 'turno necesita un adulto', 'turnos necesitan un adulto') : '',
          Number(facts.overdueDuties) > 0 ? count(facts.overdueDuties, 'tarea va tarde', 'tareas van tarde') : '',
          Number(facts.openShifts) > 0 ? `${count(facts.openShifts, 'turno tiene', 'turnos tienen')} plazas libres esta semana` : '',
          Number(facts.failedMail) > 0 ? count(facts.failedMail, 'correo no llegó', 'correos no llegaron') : '',
        ]
          .filter((part) => part !== '')
          .join('. ')
          .concat('.'),
    },
  },
  reminders: {
    title: 'Avisos',
    heading: '¿Cómo te avisamos?',
    saved: 'Guardado.',
    when: 'Avisos',
    day: 'El día antes',
    hours: 'Dos horas antes',
    digest: 'Un mensaje al día con lo que hay que hacer',
    quiet: 'Sin avisos desde las',
    quietTo: 'hasta las',
    save: 'Guardar',
    mail: 'Correo',
    mailOn: 'Avísame también por correo',
    language: 'Idioma',
    languageNow: (name: string) => `El correo y tu calendario hablan ${name}. Si eliges otro, estas páginas también lo hablan.`,
    noServer: 'Desde aquí aún no se envía correo. Todos los mensajes están en la app.',
    address: 'Dirección de correo',
    sendCode: 'Envíame un código',
    code: 'Las seis cifras del correo',
    confirm: 'Es mía',
    waits: (address: string) => `Va un código de camino a ${address}.`,
    goesTo: (address: string) => `El correo va a ${address}.`,
    forget: 'Olvidar esta dirección',
    calendar: 'Tu calendario',
    calendarText:
      'Añade tus turnos al calendario del teléfono o del ordenador. Algunos miran solo una vez al día: un cambio puede tardar 24 horas en verse.',
    secret: 'Esta dirección es secreta. Quien la tiene ve cuándo y dónde ayudas. Solo se muestra una vez.',
    label: '¿Para qué aparato es?',
    make: 'Crear una dirección',
    revoke: 'Anularla',
    revoked: 'anulada',
    unnamed: 'Dirección de calendario',
    lastRead: (ago: string) => `leída ${ago}`,
    neverRead: 'aún sin leer',
  },
  reply: {
    title: 'Tu respuesta',
    about: (site: string, when: string) => `${site}, ${when}`,
    general: 'Correo de aquí',
    cantCome: 'No puedo ir',
    given: 'No tienes plaza en este turno.',
    noReason: 'No hace falta dar razones. Preguntamos a quien espera.',
    stop: 'No quiero más correo',
    stopped: 'Ya no recibes correo. Los mensajes siguen en la app.',
    cancelled: 'Este turno está cancelado.',
    bad: 'Este enlace ya no funciona.',
    badNext: 'Entra para ver tus turnos.',
  },
};
