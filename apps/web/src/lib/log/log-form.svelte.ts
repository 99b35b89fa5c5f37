import type { Entry } from '../bin/types.ts';
import { type MassUnit, unitOf } from '../format/units.ts';
import { choicesOf, type FeedingItem } from './amount-choices.ts';
import type { Bucket } from './buckets.ts';

type Feeding = Extract<Entry, { kind: 'feeding' }>;

interface Start {
  readonly id: string;
  readonly food: string | null;
  readonly zone: string | null;
  readonly unit: MassUnit;
  /** What was typed when the server refused it. */
  readonly kept: Readonly<Record<string, string>>;
}

/** What stands in the form while somebody fills it in; the form's own fields follow it. */
export class LogForm {
  // Made when the form opens and kept over every retry, so that the same note is one entry.
  id = $state('');
  amount = $state<string | null>(null);
  weight = $state('');
  unit = $state<MassUnit>('kg');
  /** The container that stood on the scale as well; empty when the food alone did. */
  tare = $state<string | null>('');
  count = $state<string | null>('1');
  food = $state<string | null>(null);
  zone = $state<string | null>(null);
  bedding = $state<string | null>('0');
  /** Foods of this feeding that are on the list already. */
  items = $state<FeedingItem[]>([]);
  /** Buckets of this harvest that are on the list already. */
  buckets = $state<Bucket[]>([]);

  constructor({ id, food, zone, unit, kept }: Start) {
    this.id = kept.id ?? id;
    this.amount = kept.amount ?? null;
    this.weight = kept.weight ?? '';
    this.unit = unitOf(kept.unit) ?? unit;
    this.tare = kept.tare ?? '';
    this.count = kept.count ?? '1';
    this.food = kept.food ?? food;
    this.zone = kept.zone ?? zone;
    this.bedding = kept.bedding ?? '0';
  }

  /** Nothing chosen yet, for another food of the same feeding. */
  clearAmount(): void {
    this.amount = null;
    this.weight = '';
    this.count = '1';
    this.tare = '';
  }

  startAgain(id: string): void {
    this.id = id;
    this.items = [];
    this.buckets = [];
    this.bedding = '0';
    this.clearAmount();
  }

  /** As the last feeding: one food becomes the choices one would have pressed, what cannot be pressed goes on the list. */
  sameAs(last: Feeding, zone: number, containers: readonly { readonly id: string }[]): void {
    this.clearAmount();
    const [first, second] = last.items;
    const choices = first && !second ? choicesOf(first, containers, this.unit) : null;
    if (first) this.food = first.materialId;
    if (choices) Object.assign(this, choices);
    this.items = choices ? [] : last.items.map(({ materialName: _, ...item }) => item);
    this.zone = String(zone);
    this.bedding = String(last.beddingKg);
  }
}
