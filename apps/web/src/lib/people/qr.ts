import QRCode from 'qrcode';

/** A QR code as SVG: dark on white whatever the paper, with its quiet zone of four modules. */
export function qrSvg(text: string): Promise<string> {
  return QRCode.toString(text, { type: 'svg', errorCorrectionLevel: 'Q', margin: 4, color: { dark: '#000000', light: '#ffffff' } });
}
