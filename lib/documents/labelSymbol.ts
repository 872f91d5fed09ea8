import bwipjs from "bwip-js/node";

/** A scannable code as dark rectangles in modules, the quiet zone within the size. */
export interface Symbol {
  readonly kind: "Code 128" | "QR";
  readonly width: number;
  readonly height: number;
  readonly dark: readonly {
    readonly x: number;
    readonly y: number;
    readonly width: number;
    readonly height: number;
  }[];
}

/** Beyond this many characters the bars of a 62 mm label get thinner than 0.25 mm, which hand scanners lose (judgement). */
const MOST_BARS = 14;
/** Quiet zones: ten modules each side of Code 128 (ISO/IEC 15417), four round a QR code (ISO/IEC 18004). */
const QUIET_BARS = 10;
const QUIET_SQUARE = 4;

/** A part's code as Code 128, which every scanner reads; as a QR code where it is too long for that or not plain ASCII. */
export function symbolOf(code: string): Symbol {
  return /^[\x20-\x7e]+$/.test(code) && code.length <= MOST_BARS ? bars(code) : squares(code);
}

function bars(code: string): Symbol {
  // The double caret would begin a control sequence: the text is taken as it stands.
  const [drawn] = bwipjs.raw("code128", code, { parse: false, parsefnc: false });
  if (!drawn || !("sbs" in drawn)) throw new Error("No bars were drawn.");
  const dark: Symbol["dark"][number][] = [];
  let x = QUIET_BARS;
  // Bar, space, bar, space, and so on.
  for (const [at, run] of drawn.sbs.entries()) {
    if (at % 2 === 0) dark.push({ x, y: 0, width: run, height: 1 });
    x += run;
  }
  return { kind: "Code 128", width: x + QUIET_BARS, height: 1, dark };
}

/** Any text as a QR code. */
export function squares(code: string): Symbol {
  const [drawn] = bwipjs.raw("qrcode", code, { parse: false, eclevel: "M" } as never);
  if (!drawn || !("pixs" in drawn)) throw new Error("No squares were drawn.");
  const { pixs, pixx } = drawn;
  const dark: Symbol["dark"][number][] = [];
  const rows = pixs.length / pixx;
  for (let y = 0; y < rows; y++)
    for (let x = 0; x < pixx; ) {
      let run = 0;
      while (x + run < pixx && pixs[y * pixx + x + run]) run++;
      if (run > 0) dark.push({ x: x + QUIET_SQUARE, y: y + QUIET_SQUARE, width: run, height: 1 });
      x += Math.max(run, 1);
    }
  return { kind: "QR", width: pixx + 2 * QUIET_SQUARE, height: rows + 2 * QUIET_SQUARE, dark };
}
