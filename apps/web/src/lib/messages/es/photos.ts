import type { ForField } from '../shape.ts';

export const photos: ForField['photos'] = {
  add: 'Añade una foto',
  noPeople: 'Solo la compostera, sin personas.',
  busy: 'La hacemos pequeña.',
  ready: 'La foto va con esta nota.',
  what: '¿Qué muestra?',
  kinds: { bin: 'La compostera', visitor: 'Un visitante' },
  alt: 'Con palabras, para quien no puede verla',
  remove: 'No la envíes',
  heic: 'Esta foto está en un formato llamado HEIC, que este móvil no puede abrir. Pon la cámara en JPEG o envía una captura de pantalla.',
  unreadable: 'Esta foto no se puede abrir. Hazla otra vez o elige otra.',
  noStore: 'Este navegador no guarda nada, así que la foto no puede esperar aquí.',
};
