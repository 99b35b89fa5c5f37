import type { Answer } from '../api/calls.ts';

export type Shift = Answer<'readShift'>;
export type SignUp = Shift['signUps'][number];
export type ShiftCard = Answer<'readShiftCard'>;
export type CardDuty = ShiftCard['bins'][number]['duties'][number];
export type Swap = Shift['swaps'][number];
export type SignUpTerm = Answer<'listSignUpSeasons'>['items'][number];
export type ShiftProposal = Answer<'listProposals'>['items'][number];
