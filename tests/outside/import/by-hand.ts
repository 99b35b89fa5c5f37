/** Lists as they are found, each with the right reading of every row beside it; '-' is a row that must be refused, '' one that is passed over. */
import { type ImportAnswers, type ImportKind, NO_ANSWERS } from '@middenry/domain';

export interface HandMade {
  readonly name: string;
  readonly kind: ImportKind;
  readonly text: string;
  readonly answers?: Partial<ImportAnswers>;
  /** What must be asked before anything is taken. */
  readonly asks?: readonly string[];
  /** Below the headings, row by row: day, bin, and the figures in the order of the kind. */
  readonly rows: readonly string[];
}

export const answersOf = ({ answers = {} }: HandMade): ImportAnswers => ({ ...NO_ANSWERS, ...answers });

export const BY_HAND: readonly HandMade[] = [
  {
    name: 'days that can be read both ways are asked about, and wait',
    kind: 'feedings',
    text: 'Date,Bin,Food,Weight (kg)\n3/4/2026,A1,Apples,2\n5/6/2026,A1,Apples,1.5\n7/7/2026,A1,Apples,1\n',
    asks: ['date-order'],
    rows: ['-', '-', '2026-07-07 bin-a apple 1000'],
  },
  {
    name: 'the same, answered day first',
    kind: 'feedings',
    text: 'Date,Bin,Food,Weight (kg)\n3/4/2026,A1,Apples,2\n5/6/2026,A1,Apples,1.5\n',
    answers: { dateOrder: 'day-first' },
    asks: ['date-order'],
    rows: ['2026-04-03 bin-a apple 2000', '2026-06-05 bin-a apple 1500'],
  },
  {
    name: 'a column that mixes both orders is refused whole',
    kind: 'feedings',
    text: 'Date,Bin,Food,kg\n25/3/2026,A1,Apples,2\n3/26/2026,A1,Apples,2\n4/5/2026,A1,Apples,2\n',
    rows: ['-', '-', '-'],
  },
  {
    name: 'days that are none stay none',
    kind: 'feedings',
    text: 'Date,Bin,Food,kg\n31/2/2026,A1,Apples,2\n30 February 2026,A1,Apples,2\nlast Tuesday,A1,Apples,2\n5 March,A1,Apples,2\n,A1,Apples,2\n13/13/2026,A1,Apples,1\n',
    rows: ['-', '-', '-', '-', '-', '-'],
  },
  {
    name: 'years of two figures are shown before they count',
    kind: 'feedings',
    text: 'Date,Bin,Food,kg\n25/03/26,A1,Apples,2\n',
    asks: ['short-years'],
    rows: ['-'],
  },
  {
    name: 'buckets wait for what one weighs',
    kind: 'feedings',
    text: 'Date,Bin,Food,Amount\n2026-03-05,A1,Apples,½ bucket\n2026-03-06,A1,Apples,2 buckets\n2026-03-07,A1,Apples,1 1/2 bucket\n',
    asks: ['container', 'container'],
    rows: ['-', '-', '-'],
  },
  {
    name: 'buckets of eight kilograms',
    kind: 'feedings',
    text: 'Date,Bin,Food,Amount\n2026-03-05,A1,Apples,½ bucket\n2026-03-06,A1,Apples,2 bucket\n2026-03-07,A1,Apples,1 1/2 bucket\n',
    answers: { containers: { bucket: 8000 } },
    asks: ['container'],
    rows: ['2026-03-05 bin-a apple 4000', '2026-03-06 bin-a apple 16000', '2026-03-07 bin-a apple 12000'],
  },
  {
    name: 'weights of two units, guesses, spans and nonsense',
    kind: 'feedings',
    text: 'Date,Bin,Food,Weight\n2026-03-05,A1,Apples,3 lb 4 oz\n2026-03-05,A1,Apples,~2 kg\n2026-03-05,A1,Apples,1-2 kg\n2026-03-05,A1,Apples,some\n2026-03-05,A1,Apples,-3 kg\n2026-03-05,A1,Apples,0\n2026-03-05,A1,Apples,900 kg\n2026-03-05,A1,Apples,2 kg + 1 kg\n2026-03-05,A1,Apples,8 oz\n',
    rows: ['2026-03-05 bin-a apple 1474', '2026-03-05 bin-a apple 2000', '-', '-', '-', '-', '-', '-', '2026-03-05 bin-a apple 227'],
  },
  {
    name: 'numbers without a unit anywhere are asked about',
    kind: 'feedings',
    text: 'Date,Bin,Food,Weight\n2026-03-05,A1,Apples,3\n2026-03-06,A1,Apples,2 kg\n',
    asks: ['unit'],
    rows: ['-', '2026-03-06 bin-a apple 2000'],
  },
  {
    name: 'the same, answered in pounds',
    kind: 'feedings',
    text: 'Date,Bin,Food,Weight\n2026-03-05,A1,Apples,3\n2026-03-06,A1,Apples,2 kg\n',
    answers: { unit: 'lb' },
    asks: ['unit'],
    rows: ['2026-03-05 bin-a apple 1361', '2026-03-06 bin-a apple 2000'],
  },
  {
    name: 'a comma before three figures divides or groups: asked',
    kind: 'feedings',
    text: 'Date;Bin;Food;Weight (g)\n2026-03-05;A1;Apples;1,250\n2026-03-06;A1;Apples;900\n',
    asks: ['mark'],
    rows: ['-', '2026-03-06 bin-a apple 900'],
  },
  {
    name: 'a comma before three figures where another number tells',
    kind: 'feedings',
    text: 'Date;Bin;Food;Weight (kg)\n2026-03-05;A1;Apples;1,250\n2026-03-06;A1;Apples;0,9\n2026-03-07;A1;Apples;1.250,5\n',
    rows: ['2026-03-05 bin-a apple 1250', '2026-03-06 bin-a apple 900', '-'],
  },
  {
    name: 'bins, foods and people whom nobody knows',
    kind: 'feedings',
    text: 'Date,Bin,Food,kg,Who\n2026-03-05,Z9,Apples,2,\n2026-03-05,A1,Dragon fruit,2,\n2026-03-05,A1,Apples,2,Otis\n2026-03-05,a1 ,APPLES,2,otis  barrow\n2023-03-05,A1,Apples,2,\n',
    asks: ['name', 'name', 'name'],
    rows: ['-', '-', '-', '2026-03-05 bin-a apple 2000', '-'],
  },
  {
    name: 'headings that stand again, comments and totals between the rows',
    kind: 'feedings',
    text: 'Feedings,,,\n\nDate,Bin,Food,kg\n2026-03-05,A1,Apples,2\n,,Subtotal,2\n,,,\n2026-04-05,B2,coffee,1\nTotal,,,3\n',
    rows: ['2026-03-05 bin-a apple 2000', '', '', '2026-04-05 bin-b coffee_grounds 1000', ''],
  },
  {
    name: 'checks with words of two languages and both scales',
    kind: 'checks',
    text: 'Date,Bin,Moisture,Smell,Temp,pH\n2026-03-05,A1,wet,earthy,68F,6.5\n2026-03-06,A1,seco,agrio,20 °C,\n2026-03-07,A1,dripping,sour,21.5C,15\n2026-03-08,A1,purple,,,\n2026-03-09,A1,,,,\n',
    rows: ['2026-03-05 bin-a few-drops earthy 20 6.5', '2026-03-06 bin-a crumbles sour 20 -', '-', '-', '-'],
  },
  {
    name: 'degrees of no scale are asked about',
    kind: 'checks',
    text: 'Date,Bin,Temp\n2026-03-05,A1,20\n',
    asks: ['temp-unit'],
    rows: ['-'],
  },
  {
    name: 'degrees of the heading',
    kind: 'checks',
    text: 'Date,Bin,Temp (°F)\n2026-03-05,A1,68\n2026-03-06,A1,200\n',
    rows: ['2026-03-05 bin-a - - 20 -', '-'],
  },
  {
    name: 'harvests and where they went',
    kind: 'harvests',
    text: 'Date,Bin,Castings (lb),Destination\n03/25/2026,A1,10,beds\n03/26/2026,B2,"1,000.5",sold\n04/02/2026,A1,4.5,Aunt May\n',
    answers: { columns: { amount: 2 } },
    rows: ['2026-03-25 bin-a 4536 beds', '2026-03-26 bin-b 453819 sale', '2026-04-02 bin-a 2041 other'],
  },
  {
    name: 'hours as people write them',
    kind: 'hours',
    text: 'Name,Date,Hours,Site\nOtis Barrow,2026-03-05,1.5,Long Meadow\nMaren Quill,2026-03-05,1h30,Hilltop School\nOtis Barrow,2026-03-06,90 min,Long Meadow\nOtis Barrow,2026-03-07,1:45,long meadow\nOtis Barrow,2026-03-08,30,Long Meadow\nSomebody,2026-03-08,2,Long Meadow\n,2026-03-08,2,Long Meadow\n',
    asks: ['name'],
    rows: [
      '2026-03-05 otis meadow 90',
      '2026-03-05 maren school 90',
      '2026-03-06 otis meadow 90',
      '2026-03-07 otis meadow 105',
      '-',
      '-',
      '-',
    ],
  },
];
