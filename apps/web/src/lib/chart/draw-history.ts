import { Chart, Filler, LinearScale, LineController, LineElement, type Plugin, PointElement } from 'chart.js';
import { dayFromNumber } from '../format/days.ts';
import type { Ink } from './ink.ts';

Chart.register(LineController, LineElement, PointElement, LinearScale, Filler);

/** What was noted of a day, or is to come. */
export type MarkKind = 'fed' | 'seen' | 'taken' | 'cared' | 'planned';

export interface HistoryDrawing {
  readonly points: readonly {
    readonly on: string;
    readonly low: number;
    readonly mid: number;
    readonly high: number;
    readonly expected: boolean;
  }[];
  readonly show: (value: number) => string;
  readonly marks: readonly { readonly on: string; readonly kind: MarkKind }[];
  readonly today: string;
  readonly todayWord: string;
  readonly fromZero: boolean;
  readonly ink: Ink;
  readonly day: (day: string) => string;
  readonly dayNumber: (day: string) => number;
}

const WORD_PX = 14;
const MARK_PX = 5;
const NARROW_PX = 500;

/** One line with its band, no markers, end value in words; what was fed or seen stands on the axis. */
export function drawHistory(canvas: HTMLCanvasElement, drawing: HistoryDrawing): Chart {
  const { points, ink, show, dayNumber } = drawing;
  const xy = (pick: (p: HistoryDrawing['points'][number]) => number) => points.map((p) => ({ x: dayNumber(p.on), y: pick(p) }));
  const firstExpected = points.find((p) => p.expected);
  const from = firstExpected ? dayNumber(firstExpected.on) : Number.POSITIVE_INFINITY;
  const plain = { borderWidth: 0, pointRadius: 0, pointHitRadius: 0 };
  return new Chart(canvas, {
    type: 'line',
    data: {
      // The first is drawn on top.
      datasets: [
        {
          ...plain,
          data: xy((p) => p.mid),
          borderColor: ink.line,
          borderWidth: 2,
          segment: { borderDash: (part) => ((part.p1.parsed.x ?? 0) >= from ? [2, 4] : undefined) },
        },
        { ...plain, data: xy((p) => p.low) },
        { ...plain, data: xy((p) => p.high), fill: '-1', backgroundColor: ink.fan },
      ],
    },
    options: {
      animation: false,
      responsive: true,
      maintainAspectRatio: false,
      parsing: false,
      events: [],
      layout: { padding: { top: 24, right: 64 } },
      font: { family: ink.face, size: WORD_PX },
      scales: {
        x: {
          type: 'linear',
          min: dayNumber(points[0]?.on ?? drawing.today),
          max: dayNumber(points.at(-1)?.on ?? drawing.today),
          grid: { display: false },
          border: { color: ink.axis },
          ticks: {
            color: ink.soft,
            font: { family: ink.face, size: WORD_PX },
            stepSize: canvas.clientWidth < NARROW_PX ? 28 : 14,
            maxRotation: 0,
            callback: (v) => drawing.day(dayFromNumber(Number(v))),
          },
        },
        y: {
          type: 'linear',
          ...(drawing.fromZero ? { min: 0 } : { grace: '10%' }),
          grid: { color: ink.grid },
          border: { display: false },
          ticks: { color: ink.soft, font: { family: ink.face, size: WORD_PX }, maxTicksLimit: 5, callback: (v) => show(Number(v)) },
        },
      },
    },
    plugins: [notes(drawing)],
  });
}

/** Today's line, the end value, and what was done, drawn beside the thing instead of a legend. */
function notes(drawing: HistoryDrawing): Plugin {
  const { ink, dayNumber } = drawing;
  return {
    id: 'notes',
    afterDraw: (chart) => {
      const { ctx, chartArea } = chart;
      const { x, y } = chart.scales;
      if (!x || !y) return;
      ctx.save();
      ctx.font = `600 ${WORD_PX}px ${ink.face}`;
      const now = x.getPixelForValue(dayNumber(drawing.today));
      ctx.strokeStyle = ink.line;
      ctx.fillStyle = ink.line;
      ctx.lineWidth = 2;
      ctx.beginPath();
      ctx.moveTo(now, chartArea.top - 4);
      ctx.lineTo(now, chartArea.bottom);
      ctx.stroke();
      ctx.textAlign = now > chartArea.right - 40 ? 'right' : 'center';
      ctx.fillText(drawing.todayWord, now, chartArea.top - 9);
      const end = drawing.points.at(-1);
      if (end) {
        ctx.textAlign = 'left';
        ctx.fillText(drawing.show(end.mid), x.getPixelForValue(dayNumber(end.on)) + 6, y.getPixelForValue(end.mid) + 5);
      }
      drawMarks(ctx, drawing, (day) => x.getPixelForValue(dayNumber(day)), chartArea.bottom);
      ctx.restore();
    },
  };
}

function drawMarks(ctx: CanvasRenderingContext2D, drawing: HistoryDrawing, at: (day: string) => number, bottom: number): void {
  const first = drawing.points[0]?.on ?? '';
  for (const mark of drawing.marks) {
    if (mark.on < first) continue;
    const px = at(mark.on);
    ctx.beginPath();
    if (mark.kind === 'fed') {
      ctx.fillStyle = drawing.ink.soft;
      ctx.fillRect(px - MARK_PX / 2, bottom - 3 * MARK_PX, MARK_PX, 3 * MARK_PX);
    } else if (mark.kind === 'planned') {
      ctx.strokeStyle = drawing.ink.soft;
      ctx.lineWidth = 1.5;
      ctx.strokeRect(px - MARK_PX / 2, bottom - 3 * MARK_PX, MARK_PX, 3 * MARK_PX);
    } else if (mark.kind === 'taken') {
      ctx.fillStyle = drawing.ink.line;
      ctx.moveTo(px - MARK_PX, bottom - 5 * MARK_PX);
      ctx.lineTo(px + MARK_PX, bottom - 5 * MARK_PX);
      ctx.lineTo(px, bottom - 3.5 * MARK_PX);
      ctx.fill();
    } else if (mark.kind === 'cared') {
      ctx.strokeStyle = drawing.ink.line;
      ctx.lineWidth = 1.5;
      const y = bottom - 4 * MARK_PX;
      const arm = MARK_PX * 0.7;
      ctx.moveTo(px - arm, y - arm);
      ctx.lineTo(px + arm, y + arm);
      ctx.moveTo(px - arm, y + arm);
      ctx.lineTo(px + arm, y - arm);
      ctx.stroke();
    } else {
      ctx.arc(px, bottom - MARK_PX, MARK_PX, 0, Math.PI * 2);
      ctx.fillStyle = drawing.ink.paper;
      ctx.strokeStyle = drawing.ink.line;
      ctx.fill();
      ctx.stroke();
    }
  }
}
