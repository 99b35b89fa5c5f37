import type { BodyOf } from '../api/calls.ts';
import { paths } from '../paths/paths.ts';
import type { Remedy } from './types.ts';

export type RemedyStep = Pick<Remedy, 'id' | 'zone' | 'massKg'>;
type Care = BodyOf<'logCare'>;
/** One note of care, but for what only the moment of pressing knows. */
export type CareDeed = Pick<Care, 'action'> & Partial<Pick<Care, 'zone' | 'massKg' | 'materialId' | 'exposure'>>;

export const stepsOf = ({ id, zone, massKg, also }: Remedy): readonly RemedyStep[] => [
  { id, zone, massKg },
  ...(also === null ? [] : [also]),
];

/** What is noted when a step was done as it says; none where the log must ask for more, or where nothing is done. */
export function deedsOf({ id, zone, massKg }: RemedyStep): readonly CareDeed[] {
  const amount = massKg ?? undefined;
  switch (id) {
    case 'loosen':
      return [{ action: 'loosened', zone }];
    case 'take-out-uneaten':
      return [{ action: 'taken-out', zone }];
    case 'mix-in-bedding':
      return amount === undefined
        ? []
        : [
            { action: 'loosened', zone },
            { action: 'bedding', zone, massKg: amount },
          ];
    case 'add-bedding':
      return amount === undefined ? [] : [{ action: 'bedding', massKg: amount }];
    case 'add-water':
      return amount === undefined ? [] : [{ action: 'watered', massKg: amount }];
    case 'inoculate':
      return [{ action: 'inoculated', massKg: amount }];
    case 'drain':
      return [{ action: 'drained' }];
    case 'shade':
      return [{ action: 'moved', exposure: 'shade' }];
    case 'insulate':
      return [{ action: 'covered' }];
    default:
      return [];
  }
}

/** All that is noted at one press, where a meal skipped is nothing to note; none when any of the steps must be told in a form. */
export function deedsOfAll(steps: readonly RemedyStep[]): readonly CareDeed[] {
  return steps.some(({ id }) => FORM_OF[id] !== undefined) ? [] : steps.flatMap(deedsOf);
}

/** The form in which a step that asks for more is noted; null where there is nothing to note. */
export function formOf(binId: string, steps: readonly RemedyStep[]): string | null {
  const asked = steps.map(({ id }) => FORM_OF[id]).find((kind) => kind !== undefined);
  return asked === undefined ? null : paths.binLog(binId, asked);
}

const FORM_OF: Readonly<Partial<Record<Remedy['id'], string>>> = {
  'feed-now': 'feeding',
  'ground-eggshell': 'feeding',
  harvest: 'harvest',
  check: 'check',
};

/** Reads what the form sent back; null when it is not ours. */
export function readSteps(sent: string): readonly RemedyStep[] | null {
  try {
    const steps: unknown = JSON.parse(sent);
    return Array.isArray(steps) && steps.length > 0 && steps.length <= MOST_STEPS && steps.every(isStep) ? steps : null;
  } catch {
    return null;
  }
}

const MOST_STEPS = 2;
const isStep = (step: unknown): step is RemedyStep => typeof step === 'object' && step !== null && 'id' in step;
