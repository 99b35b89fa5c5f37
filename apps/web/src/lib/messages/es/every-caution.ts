// Data: the cautions that are told away from the log form, too, in Spanish.
import type { CautionId } from '@middenry/domain';
import { cautions } from './science.ts';

export const everyCaution: Record<CautionId, string> = {
  ...cautions,
  pupils: 'El alumnado trabaja con adultos al lado.',
  lime: 'Usa solo cáscara de huevo molida o caliza de jardín. Nunca cal viva ni apagada: quema la piel y mata lombrices.',
  heating: 'Nada de calefactores dentro ni cerca: fuego y lechos secos.',
};
