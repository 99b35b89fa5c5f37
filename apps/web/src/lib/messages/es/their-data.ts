// Data: what a coordinator may do with what is known of somebody else, in Spanish.
export const theirData = {
  fetch: 'Lo que se sabe de esta persona',
  erase: 'Borrar',
  title: 'Borrar a alguien',
  heading: (name: string) => `¿Borramos los datos de ${name}?`,
  lead: 'Hazlo cuando te lo pida esa persona, o la familia o la escuela en el caso del alumnado. No se puede deshacer.',
  first: '¿Quiere antes una copia?',
  firstText: 'Contiene todo lo que se sabe de esa persona y nada de otras. Dásela solo a ella, o a la familia si es alumnado.',
  going: [
    'su nombre y dirección, o su clase y tarjeta de dibujos',
    'su entrada, en todos los aparatos',
    'sus plazas en turnos que vienen, mensajes y deseos',
    'las fotos en las que se le nombró',
  ],
  staying: [
    'lo que anotó de las composteras, sin su nombre',
    'las horas y los pesos en los totales del balance',
    'las copias hechas antes: se van en 90 días',
  ],
  submit: (name: string) => `Borrar a ${name}`,
  done: 'Borrado. Lo que anotó se queda, sin nombre.',
  nobody: 'Aquí no hay nadie a quien borrar.',
} as const;
