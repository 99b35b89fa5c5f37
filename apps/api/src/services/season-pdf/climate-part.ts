/** The climate figure in print: two lines and their difference with a range, and by what they were counted (criteria D5). */
import type { Season } from '@middenry/contract';
import type { Paper } from './paper.ts';
import type { Show } from './season-pdf.ts';
import type { ReportWords } from './words.ts';

export function climatePart(paper: Paper, climate: NonNullable<Season['climate']>, show: Show, w: ReportWords): void {
  const { factors, scrapsG } = climate;
  const cells = ({ low, mid, high }: typeof scrapsG) => [low, mid, high].map((grams) => show.twoDigits(show.massBare(grams)));
  const lines = ['landfillAvoidedG', 'processG', 'differenceG'] as const;
  const unit = `${show.massUnit} ${w.climate.gases}`;
  paper.table({
    caption: `${w.sections.climate}, ${unit}`,
    heads: [w.heads.what, w.climate.low, w.climate.mid, w.climate.high],
    rows: lines.map((line) => [w.climate.rows[line], ...cells(climate[line])]),
    summed: false,
  });
  const range = ({ low, mid, high }: typeof scrapsG) => w.climate.range(...([mid, low, high].map(show.factor) as [string, string, string]));
  const [mid, low, high] = [scrapsG.mid, scrapsG.low, scrapsG.high].map(show.massAnd) as [string, string, string];
  paper.paragraph(w.climate.counted(mid, low, high, `${factors.landfillPercent} %`));
  paper.paragraph(w.climate.factors(factors.name, factors.edition, factors.region, factors.basis));
  paper.paragraph(w.climate.perTonne(range(factors.landfill), range(factors.process)));
  paper.paragraph(w.climate.source(factors.source, show.day(factors.confirmedAt.slice(0, 'yyyy-mm-dd'.length))));
  paper.paragraph(w.climate.caution);
}
