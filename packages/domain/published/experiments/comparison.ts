export type Grade = 'A' | 'B' | 'C';

/** One published figure against ours; nothing is dropped. */
export interface Comparison {
  readonly study: string;
  readonly grade: Grade;
  readonly quantity: string;
  readonly published: number;
  readonly ours: number;
  /** Where ours must lie. */
  readonly low: number;
  readonly high: number;
  readonly tolerance: string;
  readonly within: boolean;
  /** Reported, not scored, where the handbook says so. */
  readonly scored: boolean;
  /** Likely reason of a miss. */
  readonly note: string;
}

export interface Study {
  readonly id: string;
  readonly grade: Grade;
  readonly citation: string;
  /** Series the one constant is fitted on, or why none is. */
  readonly fittedOn: string;
  readonly run: () => { readonly qualityRatio: number | null; readonly rows: readonly Comparison[] };
}

interface Given {
  readonly published: number;
  readonly ours: number;
  readonly note?: string;
  readonly scored?: boolean;
}

/** Makes the rows of one study. */
export class Table {
  readonly rows: Comparison[] = [];
  private readonly study: string;
  private readonly grade: Grade;

  constructor(study: string, grade: Grade) {
    this.study = study;
    this.grade = grade;
  }

  range(quantity: string, low: number, high: number, given: Given, tolerance = `${low} to ${high}`): void {
    const { published, ours, note = '', scored = true } = given;
    this.rows.push({
      study: this.study,
      grade: this.grade,
      quantity,
      published,
      ours,
      low,
      high,
      tolerance,
      within: ours >= low && ours <= high,
      scored,
      note,
    });
  }

  /** Within a share of the published figure. */
  share(quantity: string, share: number, given: Given): void {
    this.range(quantity, given.published * (1 - share), given.published * (1 + share), given, `+/-${Math.round(share * 100)} %`);
  }

  /** Within a difference of the published figure. */
  difference(quantity: string, difference: number, given: Given): void {
    this.range(quantity, given.published - difference, given.published + difference, given, `+/-${difference}`);
  }

  /** Within a factor of the published figure. */
  factor(quantity: string, factor: number, given: Given): void {
    this.range(quantity, given.published / factor, given.published * factor, given, `x/÷${factor}`);
  }
}
