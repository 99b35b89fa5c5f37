// Data: the cautions that are told away from the log form, too.
import type { CautionId } from '@middenry/domain';
import { cautions } from './science.ts';

export const everyCaution: Record<CautionId, string> = {
  ...cautions,
  pupils: 'Pupils work with adults beside them.',
  lime: 'Use ground eggshell or garden lime only. Never burnt or hydrated lime: it burns skin and kills worms.',
  heating: 'No heaters in or near the bin: fire, and dry beds.',
};
