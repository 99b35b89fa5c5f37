// Data: lo que espera en el teléfono y lo que lleva, como lo dice cada página.
import type { ForOthers } from '../shape.ts';

const notes = (n: number) => (n === 1 ? '1 nota' : `${n} notas`);

export const carry = {
  label: 'En este teléfono',
  waits: (n: number) => `${notes(n)} en este teléfono, sin enviar.`,
  needYou: (n: number) => (n === 1 ? '1 nota te necesita.' : `${n} notas te necesitan.`),
  photosNeedYou: (n: number) => (n === 1 ? '1 foto no se pudo enviar.' : `${n} fotos no se pudieron enviar.`),
  old: 'La más vieja espera desde hace más de un día. Ve adonde haya red.',
  signIn: 'Entra y se envían.',
  toSignIn: 'Entrar',
  look: 'Ver lo que espera',
  newer: 'Hay un Middenry más nuevo.',
  useNewer: 'Usarlo ahora',
  saveFirst: 'Guarda primero lo que has escrito.',
  partGone: 'Una parte de esta página no llegó. Cárgala otra vez.',
  typedStays: 'Lo que escribiste se queda.',
  leaving: (n: number) => `Sin enviar: ${notes(n)}. Se quedan bajo llave en este teléfono hasta que entres aquí otra vez.`,
  leave: 'Salir de todos modos',
  stay: 'Seguir dentro',
} satisfies ForOthers['carry'];
