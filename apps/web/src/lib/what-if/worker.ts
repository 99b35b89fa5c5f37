/** Runs beside the page: takes a bin's members once and tries on them whatever is chosen, so that the page itself never waits. */
import { type Composition, type Ensemble, type OpenEnsemble, openEnsemble, type WhatIfChoice, whatIf } from '@middenry/domain';
import type { Choice } from './choice.ts';
import type { Question, Told } from './question.ts';

interface Opened {
  readonly open: OpenEnsemble;
  readonly foods: ReadonlyMap<string, Composition>;
}
interface Packed {
  readonly ensemble: Omit<Ensemble, 'state'> & { readonly state: string };
  readonly foods: readonly { readonly id: string; readonly composition: Composition | null }[];
}

let opened: Promise<Opened> | undefined;
let latest: Choice | undefined;
let busy = false;
const tell = (told: Told): void => self.postMessage(told);

self.addEventListener('message', ({ data }: MessageEvent<Question>) => {
  if (data.kind === 'open') opened = fetchMembers(data.address);
  else latest = data.choice;
  if (!busy && latest !== undefined) void answer();
});

async function fetchMembers(address: string): Promise<Opened> {
  const response = await fetch(address, { headers: { accept: 'application/json' } });
  if (!response.ok) throw new Error(`The members did not come: ${response.status}`);
  const { ensemble, foods } = (await response.json()) as Packed;
  const state = new Float64Array(Uint8Array.from(atob(ensemble.state), (letter) => letter.charCodeAt(0)).buffer);
  const own = foods.flatMap(({ id, composition }) => (composition === null ? [] : [[id, composition] as const]));
  return { open: openEnsemble({ ...ensemble, state }), foods: new Map(own) };
}

/** A turn for what was said meanwhile. */
const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

async function answer(): Promise<void> {
  busy = true;
  try {
    if (opened === undefined) return;
    const { open, foods } = await opened;
    while (latest !== undefined) {
      const choice: Choice = latest;
      latest = undefined;
      const asked = askedOf(choice, foods);
      tell({ kind: 'answer', grade: 'coarse', choice, answer: whatIf(open, asked, true) });
      await turn();
      if (latest === undefined) tell({ kind: 'answer', grade: 'fine', choice, answer: whatIf(open, asked) });
      await turn();
    }
  } catch {
    tell({ kind: 'fault' });
  } finally {
    busy = false;
  }
}

function askedOf({ food: id, ...rest }: Choice, foods: Opened['foods']): WhatIfChoice {
  const composition = foods.get(id);
  return { ...rest, food: composition === undefined ? { material: id } : { composition } };
}
