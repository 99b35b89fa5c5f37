// Data: the words of the screen on a wall, in Spanish.
const count = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

export const wallWords = {
  wall: {
    title: 'Pantalla de pared',
    heading: 'Muestra el tablero en una pared.',
    lead: 'Di lo grande que es la pantalla y a qué distancia está la gente. Así los códigos salen con buen tamaño.',
    inch: 'Tamaño de la pantalla, de esquina a esquina, en pulgadas',
    inchHint: 'Como en la caja, por ejemplo 43.',
    inchFault: 'Di el tamaño de la pantalla en pulgadas, de 5 a 150.',
    metres: 'A qué distancia está la gente, en metros',
    feet: 'A qué distancia está la gente, en pies',
    farFault: 'Di a qué distancia está la gente, de 0,3 a 30 metros.',
    work: 'Calcular',
    letters: (mm: string, px: string) => `Las letras necesitan ${mm} de alto: tipo de ${px}.`,
    allFit: (n: number) => (n === 1 ? 'La única compostera cabe en una página.' : `Las ${n} composteras caben en una página.`),
    needsPages: (code: string, perPage: number, pages: number) =>
      `Con ${code} así de grande caben ${count(perPage, 'ficha', 'fichas')} por página. Son ${pages} páginas.`,
    tooLarge: (code: string, far: string) => `${code} no cabe tan grande en esta pantalla. Lo más grande que cabe se lee hasta a ${far}.`,
    show: 'Mostrar la pared',
    showFewer: (perPage: number) => `Mostrar ${perPage} por página`,
    showAll: (far: string) => `Mostrar todo en una página, para leer hasta a ${far}`,
    setUp: 'Ajustar',
    pause: 'Pausar',
    goOn: 'Seguir',
    paused: (since: string) => `En pausa desde ${since}`,
    pausedNext: 'Pulsa «Seguir» para ver lo nuevo.',
    page: (page: number, pages: number) => `Página ${page} de ${pages}`,
    fresh: 'De este minuto',
    old: (age: string) => `De hace ${age}`,
    oldNext: 'Nadie sabe cómo están ahora las composteras en calma.',
    shut: 'Esta pantalla ya no puede ver el tablero. Entra otra vez.',
    andMore: (n: number) => `y ${n} más en la lista`,
    grid: 'Todas las composteras de esta página',
  },
} as const;
