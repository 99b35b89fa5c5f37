// Data: the words of the page on which a programme is taken out as one file, in Spanish.
export const takeOut = {
  title: 'Llevártelo todo',
  heading: 'Llévate todo el programa en un solo archivo.',
  lead: 'Es un zip. Puedes leerlo sin Middenry, y Middenry puede volver a leerlo.',
  inIt: 'Qué contiene',
  parts: [
    'cada tabla como CSV, para una hoja de cálculo',
    'las mismas tablas como JSON, sin perder nada',
    'todas las fotos de las composteras',
    'una página en palabras sencillas que dice qué es cada cosa',
    'una suma de control de cada archivo',
  ],
  care: 'Contiene nombres y direcciones de personas. Guárdalo donde solo tú puedas abrirlo. No lleva contraseñas.',
  fetch: 'Descargar el archivo',
  how: 'Para recuperarlo en una máquina vacía, ejecuta: npx middenry import FILE.zip',
} as const;
