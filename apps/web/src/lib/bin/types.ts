import type { Answer } from '../api/calls.ts';

export type Board = Answer<'readBoard'>;
export type BoardBin = Board['bins'][number];
export type BinOutlook = Answer<'readOutlook'>;
export type Flag = BinOutlook['flags'][number];
export type Remedy = Flag['remedies'][number];
export type Ask = NonNullable<Flag['ask']>;
export type Surprise = BinOutlook['surprises'][number];
export type Reason = Flag['reasons'][number];
export type Duty = BinOutlook['duties'][number];
export type Trend = BoardBin['trend'];
export type ZoneNow = BinOutlook['zones'][number];
export type DayRow = BinOutlook['history'][number];
export type Bin = Answer<'readBin'>;
export type Entry = Answer<'listEntries'>['items'][number];
export type Advice = BinOutlook['advice'];
