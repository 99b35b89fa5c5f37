/** Reads the values of a reason by name and by what they are; a missing one is null, and the sentence does without. */
export interface Reading {
  readonly zone: string | null;
  mass(name: string): string | null;
  depth(name: string): string | null;
  temp(name: string): string | null;
  percent(name: string): string | null;
  days(name: string): string | null;
  foodDays(name: string): string | null;
  number(name: string, digits?: number): string | null;
  text(name: string): string | null;
  /** The first value whose name says it is a local date. */
  readonly day: string | null;
}
