/** Why a file is not taken in, in one plain sentence: what, why, what next. Nothing was changed. */
export class BringBackRefusal extends Error {}

export const refuseFile = (sentence: string): BringBackRefusal => new BringBackRefusal(sentence);
