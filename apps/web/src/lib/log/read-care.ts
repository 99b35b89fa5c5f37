import type { BodyOf } from '../api/calls.ts';
import { words } from '../messages/index.ts';
import { type FormContext, type FormFaults, type Read, readWeight, readWhen } from './read-form.ts';

type CareBody = BodyOf<'logCare'>;
type WormsBody = BodyOf<'logWorms'>;
export const CARE_ACTIONS = [
  'loosened',
  'watered',
  'bedding',
  'inoculated',
  'drained',
  'covered',
  'moved',
  'taken-out',
] as const satisfies readonly CareBody['action'][];
/** These change what the bin is, so only leads see them. */
export const STATE_ACTIONS = ['rested', 'woken', 'retired'] as const satisfies readonly CareBody['action'][];
/** What an action can be said with; `!` means that it cannot do without. */
export const CARE_ASKS: Readonly<Record<CareBody['action'], readonly ('zone' | 'mass' | 'mass!' | 'material' | 'exposure!' | 'share!')[]>> =
  {
    loosened: ['zone'],
    watered: ['mass!', 'zone'],
    bedding: ['mass!', 'material', 'zone'],
    inoculated: ['mass'],
    drained: ['mass'],
    covered: ['zone'],
    moved: ['exposure!'],
    'taken-out': ['share!', 'zone'],
    rested: [],
    woken: [],
    retired: [],
  };

const text = (form: FormData, name: string) => String(form.get(name) ?? '').trim();
const fault = (field: string, says: string): FormFaults => ({ ok: false, faults: [{ field, text: says }] });

function base(form: FormData, ctx: FormContext): Read<{ id: string; binId: string; happenedAt: string; deviceAt: string; note: string }> {
  const when = readWhen(form, ctx);
  if (!when.ok) return when;
  return {
    ok: true,
    body: { id: text(form, 'id'), binId: ctx.binId, happenedAt: when.body, deviceAt: ctx.now.toISOString(), note: text(form, 'note') },
  };
}

export function readCare(form: FormData, ctx: FormContext): Read<CareBody> {
  const action = [...CARE_ACTIONS, ...STATE_ACTIONS].find((a) => a === text(form, 'action'));
  if (action === undefined) return fault('action', words.log.needAction);
  const asks = CARE_ASKS[action];
  const rest = base(form, ctx);
  if (!rest.ok) return rest;
  const wantsMass = asks.includes('mass!') || (asks.includes('mass') && text(form, 'weight') !== '');
  const weight = wantsMass ? readWeight(form, ctx) : null;
  if (weight !== null && !weight.ok) return weight;
  if (asks.includes('exposure!') && text(form, 'exposure') === '') return fault('exposure', words.log.needExposure);
  if (asks.includes('share!') && text(form, 'share') === '') return fault('share', words.log.needShare);
  const zone = asks.includes('zone') ? Number(text(form, 'zone') || '0') : 0;
  return {
    ok: true,
    body: {
      ...rest.body,
      action,
      zone: zone >= 1 && zone <= ctx.zones ? zone : null,
      massKg: weight === null ? null : weight.body.massKg,
      materialId: asks.includes('material') ? text(form, 'material') || null : null,
      exposure: asks.includes('exposure!') ? (text(form, 'exposure') as NonNullable<CareBody['exposure']>) : null,
      share: asks.includes('share!') ? Number(text(form, 'share')) : null,
    },
  };
}

export function readNote(form: FormData, ctx: FormContext): Read<BodyOf<'logNote'>> {
  const rest = base(form, ctx);
  if (rest.ok && rest.body.note === '') return fault('note', words.log.needNote);
  return rest;
}

export function readWorms(form: FormData, ctx: FormContext): Read<WormsBody> {
  const direction = (['added', 'given-away', 'split-off'] as const).find((d) => d === text(form, 'direction'));
  if (direction === undefined) return fault('direction', words.log.needDirection);
  const rest = base(form, ctx);
  if (!rest.ok) return rest;
  const otherBinId = text(form, 'otherBinId') || null;
  if (direction !== 'added') {
    const share = Number(text(form, 'share'));
    if (!(share > 0)) return fault('share', words.log.needShare);
    return { ok: true, body: { ...rest.body, direction, share, otherBinId } };
  }
  const weight = readWeight(form, ctx);
  if (!weight.ok) return weight;
  return {
    ok: true,
    body: { ...rest.body, direction, massKg: weight.body.massKg, how: form.get('guessed') ? 'guessed' : 'weighed', otherBinId },
  };
}
