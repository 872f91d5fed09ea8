import { symbolOf } from "./labelSymbol";
import { say } from "./look";
import { type Content, toPdf } from "./pdf";

export interface LabelOnPaper {
  readonly code: string;
  readonly name: string;
  readonly bin: string;
}

export interface LabelSheet {
  readonly labels: readonly LabelOnPaper[];
  /** A roll 62 mm wide, cut every 29 mm; or A4 sheets of 3 by 8 labels, 70 by 37 mm. */
  readonly paper: "roll" | "sheet";
  /** First free label of the first sheet, from 1. */
  readonly start?: number;
  readonly shop: { readonly name: string; readonly locale: string; readonly country: string };
  readonly day: string;
}

const MM = 72 / 25.4;
const ROLL = { width: 62 * MM, height: 29 * MM };
const SHEET = { width: 210 * MM, height: 297 * MM, label: { width: 70 * MM, height: 37.125 * MM } };
const ACROSS = 3;
const DOWN = 8;
/** Room inside a label; office printers leave some 4 mm of a sheet blank (common practice). */
const PAD = { roll: 2.5 * MM, sheet: 4.5 * MM };

/** Labels as a PDF: bin and code to read, a code to scan, the name below. */
export async function labelsPdf(sheet: LabelSheet): Promise<Uint8Array> {
  const { shop, labels } = sheet;
  const onRoll = sheet.paper === "roll";
  const content = onRoll
    ? labels.map((one, at) => ({
        stack: label(one, { ...ROLL, pad: PAD.roll }, [0, 0]),
        ...(at > 0 ? { pageBreak: "before" as const } : {}),
      }))
    : onSheets(labels, (sheet.start ?? 1) - 1);
  return toPdf({
    title: "Labels",
    author: shop.name,
    locale: shop.locale,
    country: shop.country,
    date: sheet.day,
    page: { ...(onRoll ? ROLL : { width: SHEET.width, height: SHEET.height }), margins: [0, 0, 0, 0] },
    footer: () => say(""),
    content,
  });
}

function onSheets(labels: readonly LabelOnPaper[], skipped: number): Content[] {
  const size = { ...SHEET.label, pad: PAD.sheet };
  return labels.map((one, at) => {
    const place = (at + skipped) % (ACROSS * DOWN);
    const corner: [number, number] = [
      (place % ACROSS) * size.width,
      Math.floor(place / ACROSS) * size.height,
    ];
    return {
      stack: label(one, size, corner),
      ...(place === 0 && at > 0 ? { pageBreak: "before" as const } : {}),
    };
  });
}

/** One label, its things at fixed places so that a long name never moves the code. */
function label(
  one: LabelOnPaper,
  size: { width: number; height: number; pad: number },
  [x, y]: [number, number],
): Content[] {
  const { pad } = size;
  const symbol = symbolOf(one.code);
  const wide = size.width - 2 * pad;
  const square = symbol.kind === "QR";
  const top = pad + 15;
  const tall = size.height - top - pad - 12;
  const module = square ? tall / symbol.height : Math.min(wide / symbol.width, 0.5 * MM);
  const left = x + (square ? pad : pad + (wide - module * symbol.width) / 2);
  const textLeft = square ? pad + tall + 4 : pad;
  const room = size.width - pad - textLeft;
  const at = (dx: number, dy: number) => ({ absolutePosition: { x: x + dx, y: y + dy } });
  const fits = (text: string, fontSize: number, width: number) => {
    const most = Math.floor(width / (fontSize * 0.56));
    return text.length > most ? `${text.slice(0, Math.max(1, most - 1))}…` : text;
  };
  const codeSize = Math.max(6, Math.min(12, (wide * 0.72) / (one.code.length * 0.62)));
  return [
    {
      columns: [
        {
          ...(say(one.code, { face: "Figure", bold: true, size: codeSize, noWrap: true }) as object),
          width: wide * 0.74,
        } as Content,
        {
          ...(say(one.bin, { face: "Figure", size: 9, align: "right", noWrap: true }) as object),
          width: wide * 0.26,
        } as Content,
      ],
      ...at(pad, pad - 1),
    } as Content,
    {
      canvas: symbol.dark.map((bar) => ({
        type: "rect" as const,
        x: bar.x * module,
        y: square ? bar.y * module : 0,
        w: bar.width * module,
        h: square ? bar.height * module : tall,
        color: "#000000",
      })),
      absolutePosition: { x: left, y: y + top },
    } as Content,
    {
      ...(say(fits(one.name, 8, room), { size: 8, noWrap: true }) as object),
      ...at(textLeft, size.height - pad - 10),
    } as Content,
  ];
}
