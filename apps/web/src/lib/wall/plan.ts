/** How the bins are shared out over a wall screen: how many a page, how large, and where the list stands. */
import { widthEm } from './letters.ts';

/** A tile is never smaller than this, however near one stands (criteria A9). */
const LEAST_WIDTH_PX = 178;
const LEAST_HEIGHT_PX = 146;
/** What a tile holds besides its code: padding at both sides; mark, word and trend below. */
const BESIDE_CODE_PX = 24;
const BELOW_CODE_PX = 80;
/** The head with the count, page edges, and the list at either place. */
const HEAD_PX = 100;
const EDGE_PX = 40;
const LIST_WIDTH_PX = 520;
const LIST_HEIGHT_PX = 104;
const LEAST_CODE_PX = 24;
/** A tile looks best somewhat wider than high. */
const SHAPE = 1.25;

export interface WallPlan {
  readonly columns: number;
  readonly rows: number;
  readonly perPage: number;
  readonly pages: number;
  /** Beside the grid where there is room, else in a strip below it. */
  readonly list: 'beside' | 'below';
  readonly codePx: number;
  /** No tile of this window can hold a code of the wanted size. */
  readonly tooLarge: boolean;
}

export interface WallNeeds {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly codes: readonly string[];
  /** Size that the code must have to be read from where people stand. */
  readonly codePx: number;
}

/** As many as can be read from there on a page, the rest on further pages. */
export function planWall(needs: WallNeeds): WallPlan {
  const whole = planAt(needs, needs.codePx);
  return whole ?? { ...planSmaller(needs, (plan) => plan !== null), tooLarge: true };
}

/** All on one page, with the largest codes that leave room for it. */
export function planOnePage(needs: WallNeeds): WallPlan {
  return planSmaller(needs, (plan) => plan?.pages === 1);
}

function planSmaller(needs: WallNeeds, will: (plan: WallPlan | null) => boolean): WallPlan {
  let best: WallPlan | null = null;
  for (let codePx = needs.codePx; codePx >= LEAST_CODE_PX; codePx -= 1) {
    best = planAt(needs, codePx) ?? best;
    if (will(best)) break;
  }
  return (
    best ?? {
      columns: 1,
      rows: 1,
      perPage: 1,
      pages: Math.max(1, needs.codes.length),
      list: 'below',
      codePx: LEAST_CODE_PX,
      tooLarge: true,
    }
  );
}

/** Null where not even one tile fits. */
function planAt(needs: WallNeeds, codePx: number): WallPlan | null {
  const beside = spread(needs, codePx, 'beside');
  const below = spread(needs, codePx, 'below');
  const count = needs.codes.length;
  if (beside !== null && (beside.perPage >= count || beside.perPage >= (below?.perPage ?? 0))) return beside;
  return below;
}

function spread(needs: WallNeeds, codePx: number, list: WallPlan['list']): WallPlan | null {
  const widthPx = needs.widthPx - 2 * EDGE_PX - (list === 'beside' ? LIST_WIDTH_PX : 0);
  const heightPx = needs.heightPx - HEAD_PX - (list === 'below' ? LIST_HEIGHT_PX : 0);
  const longest = Math.max(...needs.codes.map(widthEm), 0);
  const most = {
    columns: Math.floor(widthPx / Math.max(LEAST_WIDTH_PX, longest * codePx + BESIDE_CODE_PX)),
    rows: Math.floor(heightPx / Math.max(LEAST_HEIGHT_PX, codePx + BELOW_CODE_PX)),
  };
  if (most.columns < 1 || most.rows < 1) return null;
  const count = Math.max(1, needs.codes.length);
  const pages = Math.ceil(count / (most.columns * most.rows));
  const { columns, rows } = bestShape(Math.ceil(count / pages), most, { widthPx, heightPx });
  return { columns, rows, perPage: columns * rows, pages: Math.ceil(count / (columns * rows)), list, codePx, tooLarge: false };
}

interface Count {
  readonly columns: number;
  readonly rows: number;
}

/** Columns and rows that hold so many and leave each tile the most room. */
function bestShape(count: number, most: Count, { widthPx, heightPx }: { widthPx: number; heightPx: number }): Count {
  let best: Count = most;
  let room = 0;
  for (let columns = 1; columns <= most.columns; columns += 1) {
    const rows = Math.ceil(count / columns);
    const least = Math.min(widthPx / columns / SHAPE, heightPx / rows);
    if (rows <= most.rows && least > room) {
      best = { columns, rows };
      room = least;
    }
  }
  return best;
}
