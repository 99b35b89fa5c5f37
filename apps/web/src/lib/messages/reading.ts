/**
 * How hard a text is to read.
 * English: grade of Kincaid, Fishburne, Rogers and Chissom (1975), Research Branch Report 8-75.
 * Spanish: perspicuity of Szigriszt Pazos (1993), read on the INFLESZ scale of Barrio-Cantalejo et al. (2008).
 */
export interface Counted {
  readonly sentences: number;
  readonly words: number;
  readonly syllables: number;
}

export function sentencesOf(text: string): string[] {
  return text.split(/(?<=[.!?:])\s+/).filter((part) => wordsOf(part).length > 0);
}

export function wordsOf(text: string): string[] {
  return text.match(/\p{L}+(?:['’]\p{L}+)?/gu) ?? [];
}

/** Groups of vowels, less a silent e at the end; ia, io and coo are two, but for -tion and its like. */
export function englishSyllables(word: string): number {
  const plain = word.toLowerCase().replace(/[^a-z]/g, '');
  const spoken = plain.replace(/(?:[^laeiouy]es|[^tdaeiouy]ed|[^laeiouy]e)$/, (end) => end.charAt(0)).replace(/^y/, '');
  const parted = spoken.replace(/(?<![tsc])i(?=[ao])/g, 'i-').replace(/coo(?=[pr])/g, 'co-o');
  return Math.max(1, (parted.match(/[aeiouy]+/g) ?? []).length);
}

/** Strong and accented vowels each make a syllable; a weak one leans on its neighbour. */
export function spanishSyllables(word: string): number {
  const plain = word
    .toLowerCase()
    .replace(/([qg])u([eéií])/g, '$1$2')
    .replace(/y$/, 'i');
  const nuclei = plain.match(/[iuü]?[aeoáéó][iuü]?|[íú]|[iuü]+/g) ?? [];
  return Math.max(1, nuclei.length);
}

export function measure(texts: readonly string[], syllablesOf: (word: string) => number): Counted {
  const words = texts.flatMap(wordsOf);
  return {
    sentences: texts.flatMap(sentencesOf).length,
    words: words.length,
    syllables: words.reduce((sum, word) => sum + syllablesOf(word), 0),
  };
}

export const kincaidGrade = (r: Counted): number => 0.39 * (r.words / r.sentences) + 11.8 * (r.syllables / r.words) - 15.59;
export const szigrisztEase = (r: Counted): number => 206.835 - 62.3 * (r.syllables / r.words) - r.words / r.sentences;
