// Datos: las palabras para devolver una exportación; solo vienen con la página que lo hace.
import type { ForBringBack } from '../shape.ts';

export const bringBackWords = {
  title: 'Recuperar una exportación',
  heading: 'Recupera una exportación.',
  lead: 'Un zip bajado de Middenry se convierte en este programa, entero o nada.',
  file: 'El zip, hasta 2 GB',
  look: 'Enviarlo y mirar',
  sent: (percent: string) => `Enviado: ${percent}`,
  looking: 'Ya está todo aquí. Se está comprobando.',
  found: 'Lo que contiene',
  name: 'Programa',
  madeAt: 'Escrito el',
  counts: { entries: 'Notas', people: 'Personas', sites: 'Lugares', bins: 'Cajas', shifts: 'Turnos', photos: 'Fotos' },
  lost: (n: number) => `${n} fotos se perdieron antes de escribirlo.`,
  owner: 'Entra quien lo dirige',
  ownerText: 'Ninguna exportación lleva contraseñas: quien lo dirige recibe aquí una nueva. Los demás piden otra.',
  email: 'Correo de quien lo dirige',
  take: 'Recuperarlo',
  taking: 'Se está recuperando. Puede tardar unos minutos.',
  why: 'Lo que falló, como lo dice el servidor en inglés:',
} as const satisfies ForBringBack;
