import { confirmSecondStep, startSecondStep } from '$lib/people/second-step.ts';
import type { Actions } from './$types';

export const actions: Actions = { totp: startSecondStep, confirm: confirmSecondStep };
