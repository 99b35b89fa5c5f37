import type { CautionId } from '../signals/types.ts';

/** Where people stand or read when a caution matters. */
export const CAUTION_PLACES = ['bin', 'feeding', 'check', 'care', 'harvest', 'worms', 'shift', 'label', 'made-up'] as const;
export type CautionPlace = (typeof CAUTION_PLACES)[number];

/** Cautions that are always there. Remedies and duties bring their own besides, and pupils theirs. */
export const CAUTIONS_AT: Readonly<Record<CautionPlace, readonly CautionId[]>> = {
  bin: ['gloves'],
  feeding: ['gloves', 'food-from-outside'],
  check: ['gloves', 'no-poison'],
  care: ['gloves', 'damp-not-dusty', 'flooding', 'leachate', 'lifting'],
  harvest: ['gloves', 'lifting', 'damp-not-dusty', 'castings-on-food', 'leachate'],
  worms: ['gloves'],
  shift: ['gloves'],
  label: ['gloves'],
  'made-up': ['gloves'],
};

/** Who says so, as readers are told it. */
export const CAUTION_VOICES = ['health', 'school', 'lifting', 'organic', 'keepers'] as const;
export type CautionVoice = (typeof CAUTION_VOICES)[number];

interface CautionSource {
  readonly voice: CautionVoice;
  /** Keys of shared/sources.md. */
  readonly sources: readonly string[];
}

/** What each caution rests on. None of them stands above local rules. */
export const CAUTION_SOURCES: Readonly<Record<CautionId, CautionSource>> = {
  gloves: { voice: 'health', sources: ['legionella-guidance'] },
  'damp-not-dusty': { voice: 'health', sources: ['legionella-guidance', 'cornell-dust'] },
  pupils: { voice: 'school', sources: ['cornell-school'] },
  lifting: { voice: 'lifting', sources: ['sanitary-lifting'] },
  leachate: { voice: 'keepers', sources: ['leachate-second-hand'] },
  'castings-on-food': { voice: 'organic', sources: ['nosb-2002'] },
  'food-from-outside': { voice: 'school', sources: ['cornell-school', 'common-practice'] },
  lime: { voice: 'keepers', sources: ['common-practice'] },
  flooding: { voice: 'keepers', sources: ['common-practice'] },
  heating: { voice: 'keepers', sources: ['common-practice'] },
  'no-poison': { voice: 'keepers', sources: ['common-practice'] },
};

/**
 * Cautions in the order in which they are listed everywhere, each once, with the voices behind them.
 *
 * @shape place, caution ids -> caution ids, voices
 */
export function cautionsAt(
  place: CautionPlace,
  more: readonly CautionId[] = [],
): { readonly cautions: readonly CautionId[]; readonly voices: readonly CautionVoice[] } {
  const cautions = [...new Set([...CAUTIONS_AT[place], ...more])];
  return { cautions, voices: CAUTION_VOICES.filter((voice) => cautions.some((id) => CAUTION_SOURCES[id].voice === voice)) };
}
