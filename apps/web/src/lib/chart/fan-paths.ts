export interface FanPoint {
  readonly ahead: number;
  readonly low: number;
  readonly mid: number;
  readonly high: number;
}
export interface FanBox {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}
export interface FanScale {
  readonly low: number;
  readonly high: number;
}

/** Where things lie in a fan's box, and its paths; numbers to a tenth of a pixel. */
export function fanPaths(points: readonly FanPoint[], { low, high }: FanScale, box: FanBox) {
  const last = points.at(-1)?.ahead ?? 1;
  const n = (value: number) => Math.round(value * 10) / 10;
  const x = (ahead: number) => n(box.left + ((box.width - box.left - box.right) * ahead) / last);
  const y = (value: number) => {
    const share = Math.min(1, Math.max(0, (value - low) / (high - low)));
    return n(box.height - box.bottom - (box.height - box.top - box.bottom) * share);
  };
  const line = (pick: (point: FanPoint) => number, among = points) => among.map((point) => `${x(point.ahead)} ${y(pick(point))}`).join('L');
  return {
    x,
    y,
    mid: `M${line((point) => point.mid)}`,
    band: `M${line((point) => point.high)}L${line((point) => point.low, [...points].reverse())}Z`,
  };
}
