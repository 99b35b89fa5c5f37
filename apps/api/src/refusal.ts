import type { ErrorCode, FieldError } from '@middenry/contract';

export interface RefusalExtra {
  /** Replaces the code's own sentence where a more exact one helps. */
  readonly detail?: string;
  readonly errors?: readonly FieldError[];
  readonly retryAfterSeconds?: number;
  readonly help?: Readonly<Record<string, unknown>>;
}

/** An expected no: it becomes a problem answer with this code, and nothing of the request is kept. */
export class Refusal extends Error {
  readonly code: ErrorCode;
  readonly extra: RefusalExtra;

  constructor(code: ErrorCode, extra: RefusalExtra = {}) {
    super(code);
    this.code = code;
    this.extra = extra;
  }
}

export const refuse = (code: ErrorCode, extra?: RefusalExtra): Refusal => new Refusal(code, extra);

/** A refusal of one field of the body. */
export const refuseField = (pointer: string, message: string): Refusal => refuse('invalid', { errors: [{ pointer, message }] });
