import { BIN_KINDS } from '@middenry/domain';
import type { BodyOf } from '../api/calls.ts';
import { KIND_SIZES, startFor } from '../bin/kind-sizes.ts';
import { localDay } from '../format/days.ts';
import { uuid7 } from '../shared/uuid7.ts';

type Setup = BodyOf<'beginProgramme'>;
const text = (form: FormData, name: string) => String(form.get(name) ?? '').trim();
const MOST_OF_A_KIND = 6;
const MOST_BINS = 20;

/** The form that begins a programme, as the API wants it; the API names what does not fit. */
export function readSetup(form: FormData, now: Date): Setup {
  const timeZone = text(form, 'timeZone') || 'UTC';
  const letter = text(form, 'prefix').toUpperCase().match(/[A-Z]/)?.[0] ?? 'B';
  const units = text(form, 'units') === 'us' ? 'us' : 'metric';
  const kinds = BIN_KINDS.flatMap((kind) =>
    Array.from({ length: Math.min(MOST_OF_A_KIND, Math.max(0, Math.floor(Number(text(form, `kind-${kind}`)) || 0))) }, () => kind),
  );
  return {
    code: text(form, 'code'),
    programme: { name: text(form, 'programmeName'), timeZone, units, locale: units === 'us' ? 'en-US' : 'en-GB' },
    coordinator: { id: uuid7(), name: text(form, 'name'), email: text(form, 'email'), password: text(form, 'password') },
    site: { id: uuid7(), name: text(form, 'siteName') },
    bins: kinds.slice(0, MOST_BINS).map((kind, i) => {
      const code = `${letter}${String(i + 1).padStart(2, '0')}`;
      const size = KIND_SIZES[kind];
      return { id: uuid7(), code, name: code, kind, ...size, placeOrder: i, startedOn: localDay(now, timeZone), ...startFor(size.areaM2) };
    }),
  };
}
