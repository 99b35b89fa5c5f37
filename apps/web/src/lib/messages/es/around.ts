// Data: the words of what goes on at a site, or at all of them, in Spanish.
export const around = {
  around: {
    comes: 'Quién viene esta semana',
    nobody: 'No hay turnos en los próximos siete días.',
    noneYet: 'nadie todavía',
    due: 'Lo que toca hacer',
    nothingDue: 'Esta semana no toca nada.',
    on: (day: string) => `previsto para el turno del ${day}`,
    more: (n: number) => (n === 1 ? 'Una cosa más puede esperar.' : `${n} cosas más pueden esperar.`),
    short: 'Lo que va a faltar',
    nothingShort: 'Hay cama para las próximas cuatro semanas.',
    left: (mass: string, day: string) => `quedan ${mass}, se acaban el ${day}`,
    gone: 'no queda nada',
    year: 'Lo que entró y salió en un año',
    came: (fed: string, bedding: string) => `Entró: ${fed} de restos y ${bedding} de cama.`,
    went: (castings: string) => `Salió: ${castings} de humus.`,
    given: (hours: string, shifts: number) => `Tiempo dado: ${hours}, en ${shifts === 1 ? 'un turno' : `${shifts} turnos`}.`,
    strip: (most: string, week: string) =>
      `Cada columna es una semana. Los restos suben, el humus baja. La más larga es ${most}, en la semana del ${week}.`,
    quietYear: 'En este año no se anotó nada.',
    table: 'Las mismas semanas en una tabla',
    tableName: 'Lo que entró y salió, semana a semana',
    week: 'Semana del',
    columns: ['Restos', 'Cama', 'Humus', 'Horas'],
  },
} as const;
