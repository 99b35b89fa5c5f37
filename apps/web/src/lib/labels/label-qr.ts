/** The QR code of a label (criteria B20): as much of it may be lost to mud as its address leaves room for. */
import QRCode from 'qrcode';

/** Empty modules all round; fewer and phones no longer find the code. */
export const QUIET_MODULES = 4;
/** Width of the code on paper with its quiet zone: leaves more than 45 mm for the code itself. */
export const QR_WIDTH_MM = 59;
const LARGEST_VERSION = 4;

export interface LabelQr {
  /** Modules across, quiet zone left out. */
  readonly modules: number;
  readonly version: number;
  /** H is still read with 30 % of its words lost, Q with 25 %. */
  readonly level: 'H' | 'Q';
  /** Outline of all dark modules; one unit is one module, the quiet zone begins at 0. */
  readonly path: string;
}

/** The most forgiving level whose modules are still large enough to be read from a step away. */
export function labelQr(address: string): LabelQr {
  const forgiving = QRCode.create(address, { errorCorrectionLevel: 'H' });
  const level = forgiving.version <= LARGEST_VERSION ? 'H' : 'Q';
  const code = level === 'H' ? forgiving : QRCode.create(address, { errorCorrectionLevel: 'Q' });
  const { size, data } = code.modules;
  return { modules: size, version: code.version, level, path: darkRuns(size, data) };
}

function darkRuns(size: number, dark: ArrayLike<number>): string {
  let path = '';
  for (let y = 0; y < size; y += 1)
    for (let x = 0; x < size; x += 1) {
      const from = x;
      while (x < size && dark[y * size + x]) x += 1;
      if (x > from) path += `M${from + QUIET_MODULES} ${y + QUIET_MODULES}h${x - from}v1h${from - x}z`;
    }
  return path;
}
