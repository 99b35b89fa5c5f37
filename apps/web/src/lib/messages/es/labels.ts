// Data: the words for finding a bin, for what its label leads to, and for the sheet of labels, in Spanish.
export const labelWords = {
  find: {
    title: 'Buscar una compostera',
    heading: '¿Junto a qué compostera estás?',
    field: 'Su código, como en la etiqueta',
    submit: 'Ir a esta compostera',
    unknownHeading: 'Ninguna compostera tiene este código.',
    unknownNext: 'Mira otra vez la etiqueta, o elige abajo.',
    unknown: (typed: string) => `Ninguna compostera se llama "${typed}".`,
  },
  scan: {
    title: (code: string) => `Compostera ${code}`,
    heading: (code: string, name: string) => `Compostera ${code}, ${name}.`,
    lead: 'Entra para anotar lo que haces aquí.',
    byPassword: 'Otras formas de entrar',
    unknown: 'Ninguna compostera tiene este código.',
    unknownNext: 'La etiqueta puede ser vieja. Elige en la lista, o pregunta a quien la cuida.',
    toList: 'A la lista de composteras',
  },
  labels: {
    title: 'Etiquetas',
    heading: (n: number) => (n === 1 ? 'Una etiqueta para imprimir.' : `${n} etiquetas para imprimir.`),
    lead: 'El teléfono que lee el código abre el registro de esa compostera. El código no guarda secretos.',
    which: '¿Para qué composteras?',
    paper: 'Papel',
    papers: { a4: 'A4', letter: 'Carta' },
    show: 'Ver estas etiquetas',
    how: 'Imprime a tamaño real, sin ajustar a la hoja. Caben cuatro en una hoja. Protégelas bien: hay humedad.',
    print: 'Imprimir las etiquetas',
    onlyHere: (host: string) =>
      `Ningún teléfono puede abrir ${host}. Abre esta página en la dirección de los teléfonos e imprime. Quien lleva la máquina la pone como PUBLIC_URL.`,
    tooLong: (now: number, most: number) =>
      `La dirección del código tiene ${now} letras; con ${most} o menos se lee mejor. Prueba antes una etiqueta a un paso.`,
    qr: (code: string) => `Código para teléfonos, lleva a la compostera ${code}`,
    scan: 'Escanea y anota lo que haces.',
    orType: (host: string, code: string) => `O abre ${host} y escribe ${code}.`,
    hands: 'Ponte guantes. Lávate las manos después.',
  },
} as const;
