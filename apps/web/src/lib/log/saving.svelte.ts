import type { Problem } from '@middenry/contract';
import { call } from '../api/call.ts';
import type { Entry } from '../bin/types.ts';
import { type FormFault, faultOf, incomplete } from '../errors/form-fault.ts';
import { words } from '../messages/index.ts';
import { rememberFrom } from './device-memory.ts';
import type { EntryKind } from './entry-kinds.ts';
import type { LogForm } from './log-form.svelte.ts';
import type { FormContext, FormFaults } from './read-form.ts';

type Tools = typeof import('./at-save.ts');
interface Saved {
  readonly id: string;
  readonly entry: Entry | null;
  readonly what: string;
  readonly at: 'phone' | 'server';
  readonly band: string;
}
interface Place {
  readonly kind: EntryKind;
  readonly personId: string;
  readonly binCode: string;
  readonly draft: string;
  readonly typed: LogForm;
  /** What the form is read against, now. */
  context(): FormContext;
  entries(): readonly Entry[];
}

/** What becomes of a form from Save on: what is wrong with it, what is asked back, where it is saved. */
export class Saving {
  fault = $state<FormFault | null>(null);
  unclear = $state<FormFaults['unclear']>();
  sureOf = $state<{ readonly mass: string; readonly usual: string } | null>(null);
  saved = $state<Saved | null>(null);
  /** Noted on this page, which the server's list does not hold yet. */
  noted = $state<Entry | null>(null);
  busy = $state(false);
  tools = $state.raw<Tools | null>(null);
  /** Stops being told what becomes of the last note. */
  forget: () => void = () => undefined;
  private readonly place: Place;

  constructor(place: Place) {
    this.place = place;
  }

  /** Fetched at the first touch, so that it is there at the last. */
  fetchTools = async (): Promise<Tools> => {
    this.tools ??= await import('./at-save.ts');
    return this.tools;
  };

  /** Puts what is typed on the list, for another food of the same feeding. */
  async another(form: HTMLFormElement): Promise<void> {
    const tools = await this.toolsOrFault();
    const read = tools?.readFeeding(new FormData(form), { ...this.place.context(), zones: Number.POSITIVE_INFINITY });
    if (!read) return;
    if (!read.ok) {
      this.refuse(read);
      return;
    }
    this.place.typed.items = read.body.items as LogForm['items'];
    this.place.typed.clearAmount();
    this.fault = null;
  }

  /** Puts what stands on the scale on the list, for another bucket of the same harvest. */
  async anotherBucket(form: HTMLFormElement): Promise<void> {
    const tools = await this.toolsOrFault();
    const read = tools?.readBuckets(new FormData(form), this.place.context());
    if (!read) return;
    if (!read.ok) {
      this.refuse(read);
      return;
    }
    const { listed, last } = read.body;
    const plain = last === null ? [] : [{ grossKg: last.massKg, tareKg: 0, containerId: null, typed: last.typed }];
    this.place.typed.buckets = listed.length > 0 ? [...listed] : plain;
    this.place.typed.clearAmount();
    this.fault = null;
  }

  async save(form: HTMLFormElement, sure: boolean): Promise<void> {
    const { kind, personId, binCode, draft, context, entries } = this.place;
    const tools = await this.toolsOrFault();
    if (this.busy || !tools) return;
    const judged = tools.judge(kind, new FormData(form), { ctx: context(), entries: entries(), sure });
    if (judged.is === 'wrong') this.refuse(judged.read);
    this.sureOf = judged.is === 'unusual' ? judged : null;
    if (judged.is !== 'good') return;
    this.busy = true;
    const { body, what } = judged;
    this.forget();
    this.forget = await tools.noteDown(
      { kind, body, personId, binId: body.binId, binCode, draft },
      {
        onPhone: () => this.keep({ id: body.id, entry: null, what, at: 'phone', band: '' }),
        onServer: (entry) => this.keep({ id: body.id, entry, what, at: 'server', band: '' }),
        onRefused: (problem) => {
          this.saved = null;
          this.fault = faultOf(problem, tools.fieldAt);
        },
      },
    );
    this.busy = false;
  }

  clear(): void {
    this.unclear = undefined;
    this.fault = null;
  }

  private refuse(read: FormFaults): void {
    this.unclear = read.unclear;
    this.fault = incomplete(read.faults);
  }

  private async keep(now: Saved): Promise<void> {
    this.clear();
    this.sureOf = null;
    this.saved = now;
    this.noted = now.entry;
    rememberFrom(this.place.typed, this.place.kind);
    if (now.at === 'phone') return;
    const after = await call(fetch, 'readOutlook', { params: { id: this.place.context().binId }, query: { historyDays: 1 } });
    if (after.ok && this.saved?.id === now.id) this.saved = { ...this.saved, band: words.bands[after.data.band] };
  }

  /** With no network and nothing carried the form stays as it is, and says why. */
  private async toolsOrFault(): Promise<Tools | null> {
    return this.fetchTools().catch(() => {
      this.fault = faultOf({ code: 'unavailable' } as Problem);
      return null;
    });
  }
}
