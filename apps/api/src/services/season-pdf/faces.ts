/** Which of our two typefaces prints a text: our own, or the broad one for names that it has no letters for. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { projectRoot } from '../../root.ts';

const FONTS = join(projectRoot, 'shared/fonts');
const FILES = {
  text: 'atkinson-hyperlegible-next-regular.ttf',
  bold: 'atkinson-hyperlegible-next-bold.ttf',
  'broad text': 'noto-sans-regular.ttf',
  'broad bold': 'noto-sans-bold.ttf',
} as const;
type Face = keyof typeof FILES;
type Kind = 'text' | 'bold';

/** Stands for a sign that neither has. */
export const NO_SIGN = '\ufffd';

type Doc = PDFKit.PDFDocument;
/** What the library keeps of the font in use. */
interface InUse {
  readonly _font: { readonly font: { readonly characterSet: readonly number[] } };
}

/**
 * Lets a document print each text whole in one typeface: a name of two would look like a slip.
 *
 * @returns whether anything was printed of which a sign is in neither
 */
export function useFaces(doc: Doc): () => boolean {
  const { heightOfString, widthOfString } = doc;
  const font = doc.font as (face: Face) => Doc;
  const text = doc.text as (said: string, ...how: unknown[]) => Doc;
  const signsOf = new Map<Face, ReadonlySet<number>>();
  let kind: Kind = 'text';
  let inside = false;
  let lacks = false;
  const put = (face: Face): void => {
    // The broad one is read in when a name needs it.
    if (!signsOf.has(face)) doc.registerFont(face, readFileSync(join(FONTS, FILES[face])));
    font.call(doc, face);
    if (!signsOf.has(face)) signsOf.set(face, new Set((doc as unknown as InUse)._font.font.characterSet));
  };
  const has = (face: Face, said: string): boolean =>
    [...said].every((sign) => sign === '\n' || signsOf.get(face)!.has(sign.codePointAt(0)!));
  const inOneFace = <T>(said: string, draw: (shown: string) => T): T => {
    // A text is measured in its parts while it is drawn: they are of its typeface.
    if (inside) return draw(said);
    const whole = said.normalize('NFC');
    inside = true;
    put(kind);
    let shown = whole;
    if (!has(kind, whole)) {
      put(`broad ${kind}`);
      shown = [...new Intl.Segmenter().segment(whole)].map(({ segment }) => (has(`broad ${kind}`, segment) ? segment : NO_SIGN)).join('');
      lacks ||= shown !== whole;
    }
    const done = draw(shown);
    put(kind);
    inside = false;
    return done;
  };
  Object.assign(doc, {
    font: (name: Kind) => {
      kind = name;
      put(name);
      return doc;
    },
    text: (said: string, ...how: unknown[]) => inOneFace(said, (shown) => text.call(doc, shown, ...how)),
    heightOfString: (said: string, how: object) => inOneFace(said, (shown) => heightOfString.call(doc, shown, how)),
    widthOfString: (said: string, how: object) => inOneFace(said, (shown) => widthOfString.call(doc, shown, how)),
  });
  return () => lacks;
}
