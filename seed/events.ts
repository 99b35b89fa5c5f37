import type { BinEvent, HowMeasured, Preparation } from '@middenry/domain';

/** The same act as the model is told of it. */
export function eventOf(url: string, body: Readonly<Record<string, unknown>>): BinEvent | null {
  switch (url) {
    case '/api/feedings': {
      const { zone, items, beddingKg, beddingMaterialId, waterKg } = body as unknown as FeedingBody;
      const portions = items.map(({ materialId, massKg, how, preparation }) => ({ material: materialId, massKg, how, preparation }));
      return { day: 0, type: 'feeding', zone, items: portions, beddingKg, beddingMaterial: beddingMaterialId, waterKg };
    }
    case '/api/harvests':
      return { day: 0, type: 'harvest', massKg: Number(body.massKg) };
    case '/api/cares':
      return careEvent(body as unknown as CareBody);
    case '/api/worms':
      return wormsEvent(body as { massKg?: number; share?: number });
    case '/api/checks':
      return { day: 0, type: 'check' };
    default:
      return null;
  }
}

interface FeedingBody {
  readonly zone: number;
  readonly items: readonly {
    readonly materialId: string;
    readonly massKg: number;
    readonly how: HowMeasured;
    readonly preparation: Preparation;
  }[];
  readonly beddingKg?: number;
  readonly beddingMaterialId?: string;
  readonly waterKg?: number;
}

interface CareBody {
  readonly action: string;
  readonly massKg?: number;
  readonly materialId?: string;
  readonly zone?: number;
  readonly share?: number;
}

function careEvent({ action, massKg = 0, materialId = '', zone, share = 0 }: CareBody): BinEvent | null {
  const where = zone === undefined ? {} : { zone };
  switch (action) {
    case 'loosened':
      return { day: 0, type: 'loosen', ...where };
    case 'watered':
      return { day: 0, type: 'water', massKg };
    case 'bedding':
      return { day: 0, type: 'bedding', items: [{ material: materialId, massKg }], ...where };
    case 'inoculated':
      return { day: 0, type: 'inoculate', massKg };
    case 'drained':
      return { day: 0, type: 'drain' };
    case 'taken-out':
      return { day: 0, type: 'remove', foodFrac: share, ...where };
    default:
      return null;
  }
}

function wormsEvent({ massKg, share }: { massKg?: number; share?: number }): BinEvent {
  return massKg === undefined ? { day: 0, type: 'remove', wormsFrac: share } : { day: 0, type: 'add-worms', massKg };
}
