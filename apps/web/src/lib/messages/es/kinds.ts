// Data: los tipos de compostera y cómo mirarlas, que no se dicen al anotar.
import type { BinKind, Look } from '@middenry/domain';
import { zoneTail } from './science.ts';

const looks: Record<Look, (zone: number | null) => string> = {
  leftover: (zone) => `Mira cuánta comida queda${zoneTail(zone)}`,
  squeeze: () => 'Aprieta un puñado y cuenta las gotas',
  smell: () => 'Huele un puñado',
  worms: () => 'Escarba y mira cuántas lombrices hay',
};

const kinds: Record<BinKind, string> = {
  tote: 'caja',
  'tray-stack': 'pila de bandejas',
  'flow-through': 'compostera de flujo',
  fabric: 'bolsa colgante',
  bed: 'lecho en el suelo',
  pit: 'hoyo o zanja',
  vessel: 'recipiente pequeño',
};

export const kindWords = { kinds, looks };
