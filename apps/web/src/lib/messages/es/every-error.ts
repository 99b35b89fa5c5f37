// Data: what went wrong away from the bin, in Spanish: what, and what next.
import type { ErrorCode } from '@middenry/contract';
import type { ErrorElsewhere, ErrorWords } from '../en/errors.ts';
import { errors } from './errors.ts';

const elsewhere: Record<ErrorElsewhere, ErrorWords> = {
  'wrong-sign-in': { what: 'Esa dirección y esa contraseña no van juntas.', next: 'Revisa las dos o pregunta a coordinación.' },
  'second-step': { what: 'Un paso más: tu código de 6 cifras.', next: 'Escribe el código que muestra ahora tu teléfono.' },
  'second-step-first': { what: 'Aún no tienes el segundo paso.', next: 'Prepara primero un autenticador; después se abre todo.' },
  'code-wrong': { what: 'Ese código no es correcto.', next: 'Revísalo y escríbelo otra vez.' },
  'password-guessable': { what: 'Esa contraseña es fácil de adivinar.', next: 'Usa cuatro o cinco palabras que no vayan juntas.' },
  'code-spent': { what: 'Ese código ya se usó o es muy viejo.', next: 'Pide uno nuevo.' },
  'not-in-demo': { what: 'Esto no se puede hacer en la demostración.', next: 'Empieza tu propio programa para eso.' },
  'export-refused': {
    what: 'Este zip no es una exportación completa de Middenry.',
    next: 'Vuelve a bajarla o elige otro archivo. No cambió nada.',
  },
  'sheet-unreadable': { what: 'Esta no es una lista que podamos leer.', next: 'Guárdala como CSV o XLSX y elígela de nuevo.' },
  'answers-first': { what: 'Aún falta responder algo sobre este archivo.', next: 'Respóndelo abajo y luego toma las filas.' },
  'import-taken': { what: 'Estas filas ya se tomaron.', next: 'Vuelve a cargar la página.' },
  'shift-full': { what: 'Este turno ya está lleno.', next: 'Aquí están los turnos libres más cercanos.' },
  'shift-over': { what: 'Este turno ya pasó.', next: 'Elige uno que esté por venir.' },
  'shift-cancelled': { what: 'Este turno se ha cancelado.', next: 'Elige otro.' },
  'already-signed-up': { what: 'Ya tienes plaza en este turno.', next: 'No tienes que hacer nada.' },
  'pupils-need-adults': { what: 'El alumnado solo viene si hay bastantes adultos.', next: 'Pide primero a un adulto que tome una plaza.' },
  'swap-gone': { what: 'Esta plaza ya no se ofrece.', next: 'Busca otra en la lista de turnos.' },
  'invitation-gone': { what: 'Ya no puedes responder a esto.', next: 'Busca una plaza libre en la lista de turnos.' },
  'swap-open': { what: 'Ya has ofrecido esta plaza.', next: 'Espera una respuesta o retira la oferta.' },
  'has-sign-ups': { what: 'Hay gente apuntada aquí.', next: 'Avísales primero o guarda sus plazas.' },
  'site-closed': { what: 'El sitio cierra ese día.', next: 'Elige un día en que abra.' },
  'not-open-yet': { what: 'Las plazas de este periodo aún no se abren.', next: 'Vuelve cuando se abran.' },
  'cap-reached': { what: 'Por ahora tienes todas las plazas que puedes.', next: 'Pasados los dos primeros días puedes tomar más.' },
  'wishes-first': { what: 'Las plazas de este periodo se sortean.', next: 'Di qué turnos te gustaría tener.' },
  'drawn-already': { what: 'Las plazas de este periodo ya se sortearon.', next: 'Toma una de las que quedan.' },
  'plan-accepted': { what: 'Este plan ya está en un turno.', next: 'Mira la hoja de ese turno.' },
  'code-taken': { what: 'Otra compostera tiene este código.', next: 'Elige otro código.' },
  'name-taken': { what: 'Este nombre ya está en uso.', next: 'Elige otro nombre.' },
  'last-owner': { what: 'Alguien tiene que ser titular del programa.', next: 'Nombra primero a otra persona titular.' },
  'no-mail': {
    what: 'Desde aquí aún no se puede enviar correo.',
    next: 'Los mensajes están en la app. Quien la mantiene puede poner un servidor.',
  },
  'only-in-demo': { what: 'Esto es solo para la demostración.', next: 'Entra con tu cuenta.' },
  'demo-is-fresh': { what: 'La demostración aún no es vieja.', next: 'Se puede renovar cuando pasen tres días.' },
  'photo-heic': {
    what: 'Esta foto está en un formato llamado HEIC, que no podemos leer.',
    next: 'Pon la cámara en JPEG («más compatible») o envía una captura de pantalla.',
  },
  'photo-unreadable': { what: 'Esto no es una foto que podamos leer.', next: 'Hazla otra vez o elige otra.' },
  'photo-quota': { what: 'Ya tienes aquí todas las fotos que puede tener una persona.', next: 'Quita primero algunas antiguas.' },
  'photos-of-people-off': {
    what: 'Este programa no muestra fotos de personas.',
    next: 'Pide a coordinación que las active, o haz una foto sin personas.',
  },
  'consent-missing': {
    what: 'Alguien de esta foto no ha aceptado que se le muestre.',
    next: 'Anota primero su permiso o elige otra foto.',
  },
  'cross-site': { what: 'Esto vino de otra web y no se hizo.', next: 'Abre Middenry e inténtalo de nuevo.' },
  'changed-meanwhile': { what: 'Alguien cambió esto mientras escribías.', next: 'Mira las dos versiones y elige.' },
  'castings-short': { what: 'No hay tanto humus en el almacén.', next: 'Saca menos, o deshaz primero lo que se entregó.' },
};

/** All that can go wrong. */
export const everyError: Record<ErrorCode, ErrorWords> = { ...errors, ...elsewhere };
