import { HOURS_PER_DAY } from '@middenry/domain';
import type { MessageFacts } from '../messages/tell.ts';
import type { MailText, Words } from './en.ts';
import { MATERIALS } from './es-materials.ts';

const SHIFT_MAILS: Words['shiftMails'] = {
  'reminder-day': ({ site, when, length }) => ({
    subject: `Mañana: ${site}, ${when}`,
    text: `Tienes una plaza en ${site}: ${when} (${length}).`,
  }),
  'reminder-hours': ({ site, when, length }) => ({
    subject: `Muy pronto: ${site}, ${when}`,
    text: `Tu turno en ${site} empieza pronto: ${when} (${length}).`,
  }),
  'shift-changed': ({ site, when, length }, { was }) => ({
    subject: `Cambio de hora: ${site}, ahora ${when}`,
    text: `Tu turno en ${site} ha cambiado.\nEra: ${was}.\nAhora es: ${when} (${length}).\nTu plaza sigue siendo tuya.`,
  }),
  'shift-cancelled': ({ site, when }) => ({
    subject: `Anulado: ${site}, ${when}`,
    text: `El turno en ${site} está anulado: ${when}.`,
  }),
  'place-got': ({ site, when, length }) => ({
    subject: `Tienes plaza: ${site}, ${when}`,
    text: `Ya tienes una plaza en ${site}: ${when} (${length}).`,
  }),
  'place-lost': ({ site, when }) => ({
    subject: `Ya no vas: ${site}, ${when}`,
    text: `Ya no tienes plaza en ${site}: ${when}.`,
  }),
  'place-offered': ({ site, when, length }, { until }) => ({
    subject: `Una plaza para ti: ${site}, ${when}`,
    text: `Hay una plaza libre en ${site}: ${when} (${length}).\nTe la guardamos hasta: ${until}.`,
  }),
  'swap-offered': ({ site, when, length }, { by }) => ({
    subject: `¿Puedes ir? ${site}, ${when}`,
    text: `${by} quiere darte su plaza en ${site}: ${when} (${length}).\nMientras no digas que sí, la plaza es suya.`,
  }),
  'swap-accepted': ({ site, when }, { by }) => ({
    subject: `Ya va otra persona: ${site}, ${when}`,
    text: `${by} ocupa ahora tu plaza en ${site}: ${when}. Ya no tienes que ir.`,
  }),
  'rota-invitation': ({ site, when, length }) => ({
    subject: `¿Podrías venir? ${site}, ${when}`,
    text: `Te piden ayuda en ${site}: ${when} (${length}).\nPuedes decir que sí o que no, sin dar motivos.`,
  }),
  'needs-adult': ({ site, when }) => ({
    subject: `Falta una persona adulta: ${site}, ${when}`,
    text: `Van alumnos a ${site}: ${when}, y hay muy pocas personas adultas.\nHasta que haya más, no se les puede registrar.`,
  }),
};

const count = (number: unknown, one: string, many: string): string => `${number} ${number === 1 ? one : many}`;

function lateEntriesMail(facts: MessageFacts): MailText {
  const days = count(Math.floor(Number(facts.hours) / HOURS_PER_DAY), 'día', 'días');
  return {
    subject: 'Notas que esperaban en un móvil',
    text: `Una nota de una compostera esperó ${days} en un móvil antes de llegar.\nYa está en el registro.`,
  };
}

const UPKEEP: Readonly<Record<string, string>> = {
  backup: 'La última copia es demasiado vieja, o no se pudo hacer una nueva.',
  drill: 'La prueba de restaurar una copia va con retraso, o no salió bien.',
  soundness: 'Hace dos días que no se leen los datos enteros.',
  disk: 'El disco está casi lleno.',
};

function upkeepMail({ part }: MessageFacts): MailText {
  return {
    subject: 'El servidor necesita una mirada',
    text: `${UPKEEP[String(part)]}\nLa página de estado dice desde cuándo, y qué hacer.`,
  };
}

function digestMail(programme: string, facts: MessageFacts): MailText {
  const lines = [
    [facts.needsAdult, count(facts.needsAdult, 'turno necesita una persona adulta', 'turnos necesitan una persona adulta')],
    [facts.overdueDuties, count(facts.overdueDuties, 'tarea va con retraso', 'tareas van con retraso')],
    [facts.openShifts, `${count(facts.openShifts, 'turno tiene', 'turnos tienen')} plazas libres en los próximos siete días`],
    [facts.failedMail, `${count(facts.failedMail, 'correo no ha llegado', 'correos no han llegado')} desde ayer`],
  ] as const;
  const text = lines.filter(([number]) => Number(number) > 0).map(([, line]) => `- ${line}`);
  return { subject: `Hoy en ${programme}`, text: text.join('\n') };
}

const daysWords = (days: number): string => (days === 7 ? 'esta semana' : days === 1 ? 'mañana' : `en los próximos ${days} días`);

/** What mails, calendars and texts to copy say in Spanish. */
export const es: Words = {
  locale: 'es-ES',
  material: (id) => MATERIALS[id],
  shiftMails: SHIFT_MAILS,
  digestMail,
  lateEntriesMail,
  upkeepMail,
  damageMail: (programme, since, backup) => ({
    subject: `Los datos de ${programme} están dañados`,
    text: [
      `Los datos guardados de ${programme} están dañados. Se vio a las ${since.slice(11)} (UTC) del ${since.slice(0, 10)}.`,
      'Ya no se guarda nada ni se dan sumas. Lo que la gente apunta espera en sus teléfonos.',
      backup === null
        ? 'No hay ninguna copia en esta máquina: busca una en otro sitio.'
        : `La copia más nueva es ${backup}; se leyó entera al hacerla.`,
      'Para el servidor, recupera la copia con "npx middenry restore" y vuelve a arrancarlo. Este correo llega una sola vez.',
    ].join('\n'),
  }),
  codeMail: (programme, code) => ({
    subject: `Tu código para ${programme}`,
    text: `Tu código es ${code}.\nEscríbelo donde lo pediste. Vale 15 minutos.\nSi no lo pediste, no hagas nada.`,
  }),
  testMail: (programme) => ({
    subject: `Una prueba de ${programme}`,
    text: 'Esta es la prueba que pediste. El correo que sale de aquí te llega.',
  }),
  ownData: (programme, date) => ({
    heading: `Lo que ${programme} sabe de ti`,
    lines: [
      `Esto es todo lo que había de ti el ${date}. No hay nada de otras personas. Es tuyo: guárdalo donde solo tú puedas abrirlo.`,
      'Cada tabla está dos veces: como CSV, que abre cualquier hoja de cálculo, y en my-data.json, sin perder nada. Las fotos que hiciste están en la carpeta photos.',
      'No hay contraseñas ni códigos. Aquí nadie puede leerlos.',
    ],
  }),
  severalMail: (programme, n) => `${programme}: ${n} mensajes`,
  greeting: (name) => `Hola, ${name.split(/\s+/)[0]}:`,
  somebody: 'Alguien',
  seeShift: (url) => `Mira el turno: ${url}`,
  seeShifts: (url) => `Ábrelo: ${url}`,
  replyHere: (url) => `¿No puedes ir, o no quieres más correos? Un toque: ${url}`,
  lengthWords: (minutes) => (minutes % 60 === 0 ? count(minutes / 60, 'hora', 'horas') : `${minutes} minutos`),
  whenWords: (date, time) => `${date}, ${time}`,
  groupHead: (programme, days) => `${programme}: ¿quién puede ayudar ${daysWords(days)}?`,
  groupLine: ({ when, length, free }) => `- ${when} (${length}): ${count(free, 'plaza libre', 'plazas libres')}`,
  groupLink: (url) => `Toma una plaza: ${url}`,
  groupNothing: (programme, days) => `${programme}: todos los turnos ${daysWords(days)} están cubiertos. ¡Gracias!`,
  calendarName: 'Turnos de Middenry',
  feeding: (site) => `Dar de comer – ${site}`,
  care: (site) => `Cuidar las composteras – ${site}`,
  bins: (codes) => `Composteras: ${codes}`,
};
