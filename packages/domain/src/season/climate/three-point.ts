/** A figure with how little and how much it may be. */
export interface ThreePoint {
  readonly low: number;
  readonly mid: number;
  readonly high: number;
}
