/** Longer edge and size of what leaves the phone (criteria B22). */
export const EDGE_PX = 1600;
export const MOST_BYTES = 400_000;
const [FIRST_QUALITY, LEAST_QUALITY, STEP] = [0.85, 0.45, 0.1];
const SMALLER = 0.75;
const HEIC = /^ftyp(hei[cxms]|hev[cx]|mif1|msf1)/;
const [BRAND_FROM, BRAND_TO] = [4, 12];

export type Shrunk = { readonly ok: true; readonly picture: Blob } | { readonly ok: false; readonly why: 'heic' | 'unreadable' };

/**
 * Draws a picture anew, upright and small. What else was in the file, such as where it was taken, stays behind,
 * since only what can be seen is drawn.
 */
export async function shrink(file: Blob): Promise<Shrunk> {
  const address = URL.createObjectURL(file);
  try {
    const image = new Image();
    image.src = address;
    // The browser turns it the way it was held, as its metadata say.
    await image.decode();
    return { ok: true, picture: await smallEnough(image) };
  } catch {
    const brand = await file.slice(BRAND_FROM, BRAND_TO).text();
    return { ok: false, why: HEIC.test(brand) ? 'heic' : 'unreadable' };
  } finally {
    URL.revokeObjectURL(address);
  }
}

async function smallEnough(image: HTMLImageElement): Promise<Blob> {
  for (let edgePx = EDGE_PX; ; edgePx *= SMALLER) {
    const canvas = drawn(image, edgePx);
    for (let quality = FIRST_QUALITY; quality >= LEAST_QUALITY; quality -= STEP) {
      const picture = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', quality));
      if (picture === null) throw new Error('no picture came of it');
      if (picture.size <= MOST_BYTES) return picture;
    }
  }
}

function drawn(image: HTMLImageElement, edgePx: number): HTMLCanvasElement {
  const scale = Math.min(1, edgePx / Math.max(image.naturalWidth, image.naturalHeight));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(image.naturalWidth * scale));
  canvas.height = Math.max(1, Math.round(image.naturalHeight * scale));
  const pen = canvas.getContext('2d');
  if (pen === null) throw new Error('nothing to draw on');
  // JPEG has no glass: what was clear is white.
  pen.fillStyle = '#fff';
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.drawImage(image, 0, 0, canvas.width, canvas.height);
  return canvas;
}
