// Data: what went wrong, in Spanish: what, and what next.
import type { ErrorCode } from '@middenry/contract';
import type { ErrorElsewhere, ErrorWords } from '../en/errors.ts';

export const errors: Record<Exclude<ErrorCode, ErrorElsewhere>, ErrorWords> = {
  'bad-request': { what: 'Esto no se pudo leer.', next: 'Carga la página otra vez e inténtalo de nuevo.' },
  invalid: { what: 'Hay algo que no encaja.', next: 'Mira las líneas marcadas abajo.' },
  'too-large': { what: 'Es más de lo que cabe de una vez.', next: 'Hazlo más corto e inténtalo de nuevo.' },
  'not-signed-in': { what: 'Tu sesión se ha cerrado.', next: 'Entra y hazlo otra vez. Lo que escribiste sigue aquí.' },
  wait: { what: 'Demasiados intentos en poco tiempo.', next: 'Espera un poco e inténtalo de nuevo.' },
  erased: {
    what: 'Tus datos se borraron aquí, así que esto no se ha guardado.',
    next: 'Cópialo si alguien lo necesita y después tíralo.',
  },
  'signed-in-as-another': { what: 'Estas notas son de otra persona.', next: 'Esperan aquí hasta que esa persona entre.' },
  'update-first': {
    what: 'Esta página es demasiado vieja para el servidor.',
    next: 'Carga la página otra vez. Lo que espera aquí se queda.',
  },
  'not-allowed': { what: 'Tu papel no permite esto.', next: 'Pregunta a coordinación.' },
  'not-found': { what: 'Aquí no hay nada.', next: 'Quizá se ha movido. Vuelve al tablero.' },
  'date-before-bin': { what: 'Ese día aún no existía la compostera.', next: 'Elige un día posterior.' },
  'date-in-future': { what: 'Esa hora aún no ha llegado.', next: 'Elige ahora o antes.' },
  'bin-retired': { what: 'Esta compostera ya no se usa.', next: 'Elige otra compostera.' },
  'zone-unknown': { what: 'Esta compostera no tiene esa zona.', next: 'Elige una de sus zonas.' },
  'material-never': { what: 'Esto nunca debe entrar en una compostera.', next: 'No lo eches. Si ya está dentro, sácalo.' },
  'material-hidden': {
    what: 'Aún sabemos muy poco de este alimento.',
    next: 'Elige el más parecido o pide a coordinación que añada sus datos.',
  },
  'material-unknown': { what: 'No conocemos este alimento.', next: 'Elige uno de la lista.' },
  'same-id-other-content': { what: 'Esta nota ya se envió con otras palabras.', next: 'Empieza una nota nueva.' },
  'still-running': { what: 'Esta misma nota se está guardando.', next: 'Espera un momento y mira el registro.' },
  'too-late-to-undo': { what: 'Ya es tarde para deshacerlo tú.', next: 'Pide a coordinación que lo corrija.' },
  'already-undone': { what: 'Esto ya se deshizo.', next: 'No hay nada más que hacer.' },
  'store-damaged': {
    what: 'Los datos guardados en la máquina están dañados.',
    next: 'Ahora no se guarda nada. Tu nota sigue aquí. Avisa a quien la mantiene.',
  },
  'no-room': { what: 'No queda espacio para guardar en la máquina.', next: 'Avisa a quien la mantiene. Tu nota sigue aquí.' },
  unavailable: { what: 'La máquina está ocupada o arrancando.', next: 'Inténtalo otra vez en un momento.' },
  'server-fault': { what: 'Algo se rompió por nuestra parte.', next: 'Inténtalo otra vez. Si avisas a alguien, dale el número de abajo.' },
};
