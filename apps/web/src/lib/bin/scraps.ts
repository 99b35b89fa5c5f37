import { seeded } from '../shared/seeded.ts';

export interface Scraps {
  /** Outlines of pieces of fresh food. */
  readonly pieces: readonly string[];
  /** What is left when nearly all is gone: [x, y]. */
  readonly crumbs: readonly (readonly [number, number])[];
}

const PIECES_AT_MOST = 26;
const CRUMBS_AT_MOST = 18;

/**
 * Draws the food of one zone: pieces that get fewer and smaller as it is eaten, then crumbs, then
 * nothing. The places come from the seed, so the drawing never jitters.
 */
export function drawScraps(seed: string, left: number, x: number, y: number, width: number, height: number): Scraps {
  if (left <= 0.02) return { pieces: [], crumbs: [] };
  const chance = seeded(seed);
  const spots = scatter(chance, x, y, width, height);
  if (left < 0.18) return { pieces: [], crumbs: spots.slice(0, Math.max(4, Math.round(left * 6 * CRUMBS_AT_MOST))) };
  const radius = 3 + 4 * left;
  const shown = Math.round(Math.min(spots.length, PIECES_AT_MOST) * (0.25 + 0.75 * left));
  return { pieces: spots.slice(0, shown).map(([cx, cy]) => outline(chance, cx, cy, radius)), crumbs: [] };
}

function scatter(chance: () => number, x: number, y: number, width: number, height: number): [number, number][] {
  const columns = Math.max(3, Math.round(width / 15));
  const rows = Math.max(2, Math.round(height / 13));
  const cells: [number, number][] = [];
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++) {
      cells.push([x + ((c + 0.25 + chance() * 0.5) * width) / columns, y + ((r + 0.25 + chance() * 0.5) * height) / rows]);
    }
  }
  for (let i = cells.length - 1; i > 0; i--) {
    const j = Math.floor(chance() * (i + 1));
    const held = cells[i] as [number, number];
    cells[i] = cells[j] as [number, number];
    cells[j] = held;
  }
  return cells;
}

function outline(chance: () => number, cx: number, cy: number, radius: number): string {
  const corners = 4 + Math.floor(chance() * 3);
  const turn = chance() * Math.PI;
  const points = Array.from({ length: corners }, (_, i) => {
    const angle = turn + (i / corners) * Math.PI * 2;
    const reach = radius * (0.75 + chance() * 0.35);
    return `${(cx + Math.cos(angle) * reach).toFixed(1)} ${(cy + Math.sin(angle) * reach).toFixed(1)}`;
  });
  return `M${points.join('L')}Z`;
}
