import { BarController, BarElement, CategoryScale, Chart, LinearScale, type Plugin } from 'chart.js';
import type { Ink } from './ink.ts';

Chart.register(BarController, BarElement, CategoryScale, LinearScale);

export interface MonthBar {
  readonly name: string;
  readonly weighed: number;
  readonly estimated: number;
  readonly castings: number;
}
export interface MonthsDrawing {
  readonly months: readonly MonthBar[];
  readonly names: { readonly weighed: string; readonly estimated: string; readonly castings: string };
  readonly show: (value: number) => string;
  readonly ink: Ink;
}

const WORD_PX = 14;
const HATCH_PX = 6;

/** Bars solid, then outline, then hatched; words stand beside them instead of a legend. */
export function drawMonths(canvas: HTMLCanvasElement, drawing: MonthsDrawing): Chart {
  const { months, ink } = drawing;
  const base = { barThickness: 18, borderWidth: 1.5, borderColor: ink.soft };
  return new Chart(canvas, {
    type: 'bar',
    data: {
      labels: months.map((m) => m.name),
      datasets: [
        { ...base, label: drawing.names.weighed, data: months.map((m) => m.weighed), backgroundColor: ink.soft },
        { ...base, label: drawing.names.estimated, data: months.map((m) => m.estimated), backgroundColor: ink.paper },
        { ...base, label: drawing.names.castings, data: months.map((m) => m.castings), backgroundColor: hatch(ink) },
      ],
    },
    options: {
      indexAxis: 'y',
      animation: false,
      responsive: true,
      maintainAspectRatio: false,
      events: [],
      datasets: { bar: { categoryPercentage: 0.75, barPercentage: 1 } },
      layout: { padding: ({ chart }) => ({ right: chart.width < 500 ? 180 : 210, top: 4, left: 0, bottom: 0 }) },
      scales: {
        x: { display: false, beginAtZero: true },
        y: {
          grid: { display: false },
          border: { color: ink.axis },
          ticks: { color: ink.line, font: { family: ink.face, size: WORD_PX, weight: 600 } },
        },
      },
    },
    plugins: [besideBars(drawing)],
  });
}

function besideBars(drawing: MonthsDrawing): Plugin {
  return {
    id: 'beside-bars',
    afterDatasetsDraw: (chart) => {
      const { ctx } = chart;
      ctx.save();
      ctx.font = `400 ${WORD_PX}px ${drawing.ink.face}`;
      ctx.fillStyle = drawing.ink.line;
      ctx.textBaseline = 'middle';
      for (const [at, dataset] of chart.data.datasets.entries()) {
        for (const [i, bar] of chart.getDatasetMeta(at).data.entries()) {
          const value = Number(dataset.data[i] ?? 0);
          ctx.fillText(`${drawing.show(value)}, ${dataset.label ?? ''}`, bar.x + 8, bar.y);
        }
      }
      ctx.restore();
    },
  };
}

function hatch(ink: Ink): CanvasPattern | string {
  const tile = document.createElement('canvas');
  tile.width = HATCH_PX;
  tile.height = HATCH_PX;
  const ctx = tile.getContext('2d');
  if (!ctx) return ink.normal;
  ctx.strokeStyle = ink.soft;
  ctx.lineWidth = 1.4;
  ctx.beginPath();
  for (const shift of [-HATCH_PX, 0, HATCH_PX]) {
    ctx.moveTo(shift, HATCH_PX);
    ctx.lineTo(shift + HATCH_PX, 0);
  }
  ctx.stroke();
  return ctx.createPattern(tile, 'repeat') ?? ink.normal;
}
