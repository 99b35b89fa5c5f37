/** The words of consents. A version that was published is never changed, or nobody could say what was agreed to: a test knows its hash. */
import type { ConsentPurpose, Language } from '@middenry/contract';

type Texts = Readonly<Record<ConsentPurpose, string>>;
export interface Wording {
  readonly version: number;
  readonly publishedOn: string;
  readonly texts: Readonly<Record<Language, { readonly self: Texts; readonly pupil: Texts }>>;
}

/** The oldest first. A new one is added at the end with the next number; whoever agreed before agreed to the older words. */
export const WORDINGS: readonly Wording[] = [
  {
    version: 1,
    publishedOn: '2026-11-26',
    texts: {
      en: {
        self: {
          photo:
            'I agree that members of this programme who sign in may see photos of bins and of our work in which I can be seen. I can withdraw this at any time and need not say why. Such photos are then hidden at once and deleted within 30 days; copies kept in case the machine breaks are gone 90 days later.',
          report:
            'I agree that photos in which I can be seen may stand in reports of this programme, which are printed and handed on. I can withdraw this at any time and need not say why. The photos then vanish from the report at once; paper that was handed out cannot be called back.',
        },
        pupil: {
          photo:
            'For the pupil, we agree that members of this programme who sign in may see photos of bins and of the work in which the pupil can be seen. We can withdraw this at any time and need not say why. Such photos are then hidden at once and deleted within 30 days; copies kept in case the machine breaks are gone 90 days later.',
          report:
            'For the pupil, we agree that photos in which the pupil can be seen may stand in reports of this programme, which are printed and handed on. We can withdraw this at any time and need not say why. The photos then vanish from the report at once; paper that was handed out cannot be called back.',
        },
      },
      es: {
        self: {
          photo:
            'Acepto que quienes participan en este programa y entran con su cuenta vean fotos de las composteras y de nuestro trabajo en las que se me ve. Puedo retirar este permiso cuando quiera, sin decir por qué. Esas fotos se ocultan entonces al momento y se borran en 30 días como máximo; las copias guardadas por si se rompe la máquina desaparecen 90 días después.',
          report:
            'Acepto que fotos en las que se me ve aparezcan en informes de este programa, que se imprimen y se entregan. Puedo retirar este permiso cuando quiera, sin decir por qué. Las fotos desaparecen entonces del informe al momento; el papel ya entregado no se puede recuperar.',
        },
        pupil: {
          photo:
            'En nombre del alumno o la alumna, aceptamos que quienes participan en este programa y entran con su cuenta vean fotos de las composteras y del trabajo en las que se le ve. Podemos retirar este permiso cuando queramos, sin decir por qué. Esas fotos se ocultan entonces al momento y se borran en 30 días como máximo; las copias guardadas por si se rompe la máquina desaparecen 90 días después.',
          report:
            'En nombre del alumno o la alumna, aceptamos que fotos en las que se le ve aparezcan en informes de este programa, que se imprimen y se entregan. Podemos retirar este permiso cuando queramos, sin decir por qué. Las fotos desaparecen entonces del informe al momento; el papel ya entregado no se puede recuperar.',
        },
      },
    },
  },
];
