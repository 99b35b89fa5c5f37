import type { WhatIfAnswer } from '@middenry/domain';
import type { Choice } from './choice.ts';

/** What the worker is told: first whose members to take, then what is chosen. */
export type Question = { readonly kind: 'open'; readonly address: string } | { readonly kind: 'ask'; readonly choice: Choice };
/** The coarse answer comes at once, the fine one after it unless something else was asked meanwhile. */
export type Told =
  | { readonly kind: 'answer'; readonly grade: 'coarse' | 'fine'; readonly choice: Choice; readonly answer: WhatIfAnswer }
  | { readonly kind: 'fault' };
