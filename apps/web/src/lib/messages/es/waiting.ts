// Data: la página de lo que espera en el teléfono.
import type { ForOthers } from '../shape.ts';

export const waiting = {
  whichBin: '¿En qué compostera estás?',
  title: 'Lo que espera',
  heading: (n: number) =>
    n === 0 ? 'No espera nada. Todo está enviado.' : n === 1 ? '1 nota espera en este teléfono.' : `${n} notas esperan en este teléfono.`,
  headingPhotos: (needYou: number, n: number) =>
    needYou > 0
      ? needYou === 1
        ? '1 foto no se pudo enviar.'
        : `${needYou} fotos no se pudieron enviar.`
      : n === 1
        ? '1 foto espera en este teléfono.'
        : `${n} fotos esperan en este teléfono.`,
  needYou: 'Estas te necesitan',
  photosNeedYou: 'Fotos que no se pudieron enviar',
  photoText: 'Sus notas están a salvo: no esperan por una foto.',
  photoOf: (code: string, when: string) => `Foto de ${code}, ${when}`,
  photoAlone: (when: string) => `Foto de ${when}`,
  photosWait: (n: number) =>
    n === 1 ? 'También espera 1 foto. Sale sola, después de su nota.' : `También esperan ${n} fotos. Salen solas, después de sus notas.`,
  photoTooBig: { what: 'Esta foto es demasiado grande para el servidor.', next: 'Tírala y haz otra.' },
  photoRefused: { what: 'El servidor no acepta esta foto.', next: 'Prueba otra vez, o tírala.' },
  photoDropSure: '¿Tirar esta foto? No está en ningún otro lugar.',
  waits: 'Estas se envían solas',
  sealed: (n: number) =>
    n === 1
      ? 'Aquí espera 1 nota de otra persona. Se envía cuando esa persona entre.'
      : `Aquí esperan ${n} notas de otras personas. Se envían cuando entren.`,
  kept: (when: string) => `Guardada ${when}`,
  send: 'Enviar ahora',
  sending: 'Enviando',
  away: 'El servidor no responde. Seguimos probando.',
  signIn: 'Ya no estás dentro. Entra y se envían.',
  update: 'Estas páginas son demasiado viejas. Cárgalas otra vez y las notas se envían.',
  reload: 'Cargar otra vez',
  retry: 'Probar otra vez',
  edit: 'Cambiarla',
  save: 'Guardar y enviar',
  copy: 'Copiar el texto',
  copied: 'Copiado.',
  drop: 'Tirar',
  dropSure: '¿Tirar esta nota? No está en ningún otro lugar.',
  dropYes: 'Sí, tirarla',
  dropNo: 'Dejarla',
  when: '¿Cuándo fue?',
  zone: '¿Qué zona?',
  mass: (unit: string) => `¿Cuánto, en ${unit}?`,
  note: 'Nota',
  zoneSaid: (n: number) => `zona ${n}`,
  noStore: 'Este navegador no guarda nada. Las notas van directas al servidor, así que necesitas red.',
  safe: 'Tu navegador ha prometido guardarlas.',
  notSafe: 'Tu navegador puede borrarlas si le falta sitio. Envíalas pronto.',
  scripts: 'Activa los scripts para ver lo que espera aquí.',
  carried: (when: string) => `Lo que lleva este teléfono es de ${when}.`,
  carriedNot: 'Este teléfono aún no lleva nada.',
  nextShift: 'Tu próximo turno',
  wanted: 'Esa página necesita red. Estas funcionan sin ella:',
  bins: 'Anotar algo en una compostera',
} satisfies ForOthers['waiting'];
