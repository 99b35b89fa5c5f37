/** The colours of a chart as they stand on the present paper; charts are drawn again when the paper turns. */
export interface Ink {
  readonly line: string;
  readonly soft: string;
  readonly grid: string;
  readonly axis: string;
  readonly normal: string;
  readonly fan: string;
  readonly paper: string;
  readonly act: string;
  readonly face: string;
}

export function readInk(element: Element): Ink {
  const style = getComputedStyle(element);
  const read = (name: string) => toPlain(element, style.getPropertyValue(name).trim());
  return {
    line: read('--ink'),
    soft: read('--ink-soft'),
    grid: read('--rule'),
    axis: read('--pencil'),
    normal: read('--shade'),
    fan: read('--c-fan-out'),
    paper: read('--paper'),
    act: read('--act'),
    face: style.fontFamily,
  };
}

/** A canvas knows neither light-dark() nor variables: let the browser work the colour out. */
function toPlain(element: Element, value: string): string {
  const probe = document.createElement('span');
  probe.style.color = value;
  element.append(probe);
  const plain = getComputedStyle(probe).color;
  probe.remove();
  return plain;
}

/** Calls back when the paper turns, by button, by device or for the printer; gives the way to stop listening. */
export function onPaperTurn(again: () => void): () => void {
  const observer = new MutationObserver(again);
  observer.observe(document.documentElement, { attributes: true, attributeFilter: ['data-paper', 'class'] });
  const dark = matchMedia('(prefers-color-scheme: dark)');
  const print = matchMedia('print');
  dark.addEventListener('change', again);
  print.addEventListener('change', again);
  return () => {
    observer.disconnect();
    dark.removeEventListener('change', again);
    print.removeEventListener('change', again);
  };
}
