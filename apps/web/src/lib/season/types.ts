import type { Answer } from '../api/calls.ts';

export type Season = Answer<'readSeason'>;
export type SeasonRow = Season['bySite'][number];
export type Figures = Season['total'];
