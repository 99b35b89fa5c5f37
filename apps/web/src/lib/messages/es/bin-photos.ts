import type { ForOthers } from '../shape.ts';

export const binPhotos: ForOthers['binPhotos'] = {
  heading: 'Fotos',
  none: 'Todavía no hay fotos. Añade una cuando anotes algo.',
  of: (code, when) => `${code}, ${when}`,
  visitorOf: (code, when) => `Visitante en ${code}, ${when}`,
  people: 'Ocultar: salen personas',
  peopleInThis: (what: string) => `Ocultar esta foto, porque salen personas: ${what}`,
  takeOff: 'Quitar',
  takeOffThis: (what) => `Quitar esta foto: ${what}`,
};
