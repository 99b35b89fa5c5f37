/** Lo que el formulario pregunta de una cosecha además del peso. */
export const harvest = {
  another: 'Otro cubo',
  onList: 'Ya pesado',
  bucket: (mass: string, at: number) => `cubo ${at}: ${mass}`,
  together: (mass: string) => `En total ${mass}.`,
  more: 'Humedad, cribado, cuándo estará listo',
  squeezeQ: 'Aprieta un puñado. ¿Qué sale?',
  notNoted: 'sin probar',
  screened: 'Está cribado',
  readyOn: '¿Qué día estará listo?',
  readyHint: 'Para lo que se aparta a madurar. Vacío: en tres semanas.',
  oven: 'O secado en el horno, en gramos',
  dish: 'El plato vacío',
  wet: 'El plato con humus húmedo',
  dry: 'El plato con humus seco',
  needOven: 'Escribe los tres pesos. Seco es más que el plato y no más que húmedo.',
} as const;
