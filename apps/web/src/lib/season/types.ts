import type { Answer } from '../api/calls.ts';

/** One that was published by an older release has null for what was not counted then. */
export type Season = Answer<'readPublishedSeason'>['season'];
export type SeasonRow = Season['bySite'][number];
export type Figures = Season['total'];
export type NamedSeason = Answer<'listSeasons'>['items'][number];
export type SeasonTexts = NamedSeason['texts'];
export type PublishedHead = Answer<'listPublishedSeasons'>['items'][number];
export type SeasonChange = Answer<'readPublishedSeason'>['changed'][number];

/** A report to keep as a file. */
export interface SeasonFile {
  readonly href: string;
  readonly word: string;
  /** Left out: as the server calls it. */
  readonly name?: string;
}

/** What a cell shows, and the whole grams, millilitres or minutes that it is rounded from. */
export interface CountCell {
  readonly text: string;
  readonly value?: number;
}
export interface CountRow {
  readonly id: string;
  readonly label: string;
  readonly cells: readonly CountCell[];
}
