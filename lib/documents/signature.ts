import { SIGNATURE, signaturePath, signatureStrokes } from "../domain/signature/strokes";
import { INK, label, say } from "./look";
import type { Content } from "./pdf";

/** A signature for the printer: who signed and when, in words, and what was drawn; nothing drawn where the name was typed. */
export interface SignatureOnPaper {
  readonly signedBy: string;
  /** The moment on the shop's clock. */
  readonly signedText: string;
  readonly signature: string;
}

const WIDE = 190;

/** A signature over its line; an empty line to sign on where there is none. */
export function signatureOnPaper(
  signed: SignatureOnPaper | null,
  words: { readonly signature: string; readonly typed: string },
): Content {
  const strokes = (signed && signatureStrokes(signed.signature)) ?? [];
  const { width, height } = SIGNATURE;
  const above: Content[] =
    strokes.length > 0
      ? [
          {
            svg: `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}"><path d="${signaturePath(strokes)}" fill="none" stroke="${INK}" stroke-width="3" stroke-linecap="round" stroke-linejoin="round"/></svg>`,
            width: WIDE,
          },
        ]
      : [say(signed?.signedBy ?? "", { size: 13, margin: [0, 26, 0, 2] })];
  const below = signed
    ? `${signed.signedBy}, ${signed.signedText}${strokes.length > 0 ? "" : ` (${words.typed})`}`
    : words.signature;
  return {
    stack: [
      ...above,
      { canvas: [{ type: "line", x1: 0, y1: 0, x2: 240, y2: 0, lineWidth: 0.8, lineColor: INK }] },
      label(below, { margin: [0, 2, 0, 0] }),
    ],
    unbreakable: true,
    margin: [0, 12, 0, 0],
  };
}
