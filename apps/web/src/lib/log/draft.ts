import { readDraft, writeDraft } from '../outbox/outbox.ts';
import type { Draft } from '../phone/open.ts';
import type { FeedingItem } from './amount-choices.ts';
import type { Bucket } from './buckets.ts';

/** What stands in a form and is not saved yet, kept on the phone as it is typed and put back when the form opens again. */
export type DraftFields = Readonly<Record<string, string>>;
/** Nobody types it. */
const BETWEEN = '\u001f';

/** The form's fields as lines of text; what can be ticked more than once is a list. */
export function fieldsOf(form: FormData): DraftFields {
  const names = [...new Set(form.keys())].filter((name) => name !== 'id');
  return Object.fromEntries(
    names.map((name) => {
      const values = form.getAll(name).filter((value) => typeof value === 'string');
      return [name, values.join(BETWEEN)];
    }),
  );
}

const valuesOf = (text: string): string[] => text.split(BETWEEN);

/** Puts a draft back by the same events that a person's finger makes, so that whatever follows a field follows it now. */
export function fillIn(form: HTMLFormElement, fields: DraftFields): void {
  for (const [name, text] of Object.entries(fields)) {
    const values = valuesOf(text);
    for (const field of form.querySelectorAll<HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement>(`[name="${CSS.escape(name)}"]`)) {
      if (field instanceof HTMLInputElement && (field.type === 'radio' || field.type === 'checkbox')) {
        if (values.includes(field.value) !== field.checked && (field.type === 'checkbox' || !field.checked)) field.click();
      } else if (field.type !== 'hidden' && field.value !== values[0]) {
        field.value = values[0] ?? '';
        field.dispatchEvent(new Event(field instanceof HTMLSelectElement ? 'change' : 'input', { bubbles: true }));
      }
    }
  }
}

/** The foods that were on the list already. */
export function itemsOf(fields: DraftFields): FeedingItem[] {
  return fields.item === undefined ? [] : valuesOf(fields.item).map((item) => JSON.parse(item) as FeedingItem);
}

/** The buckets that were on the list already. */
export function bucketsOf(fields: DraftFields): Bucket[] {
  return fields.bucket === undefined ? [] : valuesOf(fields.bucket).map((bucket) => JSON.parse(bucket) as Bucket);
}

interface Drafted {
  readonly key: string;
  /** The id the form has now; the draft comes back with it. */
  id(): string;
  /** False from the moment it is saved. */
  isOpen(): boolean;
  onFound(draft: Draft): void;
}
const TYPED_MS = 250;

/** Keeps a form as it is typed, so that a page which goes away takes nothing with it. */
export function keepsDraft({ key, id, isOpen, onFound }: Drafted): (form: HTMLFormElement) => () => void {
  return (form) => {
    let typing: ReturnType<typeof setTimeout> | undefined;
    const keep = () => {
      typing = undefined;
      // Without a store there is nothing to come back to.
      if (isOpen()) void writeDraft(key, { id: id(), fields: fieldsOf(new FormData(form)) }).catch(() => undefined);
    };
    const later = () => {
      clearTimeout(typing);
      typing = setTimeout(keep, TYPED_MS);
    };
    readDraft(key).then(
      (draft) => draft && form.isConnected && onFound(draft),
      () => undefined,
    );
    form.addEventListener('input', later);
    form.addEventListener('click', later);
    return () => {
      if (typing === undefined) return;
      clearTimeout(typing);
      keep();
    };
  };
}
