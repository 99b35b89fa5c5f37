import type { Answer } from '../api/calls.ts';

export type Shift = Answer<'readShift'>;
export type SignUp = Shift['signUps'][number];
