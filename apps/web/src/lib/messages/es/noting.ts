import type { ForField } from '../shape.ts';

export const noting = {
  asOf: (when) => `Aquí no hay red. Lo que ves es de ${when}.`,
  same: 'Igual que la última vez',
  sameWords: (foods, zone, isNext) => `${foods}, zona ${zone}${isNext ? ', que es la siguiente' : ''}`,
  sameTaken: 'Relleno como la última vez. Ahora guárdalo.',
  amountOf: (amount, food) => `${amount} de ${food}`,
  withBedding: (mass) => `${mass} de cama`,
  goesWith: 'va con ello',
  justNow: (time, what) => `Anotaste a las ${time}: ${what}.`,
  onPhone: 'Guardado en este teléfono.',
  onPhoneText: 'Sale sin que hagas nada cuando haya red.',
  draftBack: (when) => `Esto se escribió ${when} y aún no se ha guardado.`,
  draftDrop: 'Empezar de nuevo',
  fromAbove: 'Vista desde arriba.',
  leftNow: (left) => `comida que queda: ${left}`,
  back: 'Quitar la última cifra',
  tareQ: '¿En qué estaba sobre la báscula?',
  tareNone: 'en nada',
  empty: (mass) => `vacío ${mass}`,
  lessTare: (x) => `${x.gross} menos ${x.tare} del envase vacío (${x.name}) son ${x.net}.`,
  noMoreThanTare: (name, tare) => `El envase vacío (${name}) ya pesa ${tare}. Escribe lo que marca la báscula con algo dentro.`,
} satisfies ForField['noting'];
