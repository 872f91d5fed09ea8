/**
 * A line drawing as data, so that screen, print and PDF draw from one source. Coordinates are units of a sheet 320 wide, which is
 * about a phone's width in pixels: 13 units of text stay above 12 px there.
 */
export interface Drawing {
  /** What is drawn, for a screen reader. */
  readonly title: string;
  /** What the drawing shows, in words that replace it. */
  readonly description: string;
  readonly height: number;
  readonly strokes: readonly Stroke[];
  readonly labels: readonly DrawnLabel[];
}

/**
 * How a stroke looks: `edge` an outline, `cut` metal that is cut through, `solid` a filled part, `gauge`
 * the instrument, `fuel` fuel, `level` its surface, `measure` what is read, `head` the head of an arrow, `leader` a line to a label,
 * `disc` a place for a number, on which nothing of the drawing is seen.
 */
export type StrokeKind =
  | "edge"
  | "cut"
  | "solid"
  | "gauge"
  | "fuel"
  | "level"
  | "measure"
  | "head"
  | "leader"
  | "disc";

export interface Stroke {
  readonly kind: StrokeKind;
  /** SVG path data of M, L, H, V, C, Q, A and Z, absolute. */
  readonly d: string;
}

export interface DrawnLabel {
  readonly x: number;
  /** Of the text's base line. */
  readonly y: number;
  readonly text: string;
  readonly anchor: "start" | "middle" | "end";
  /** What is read, in the colour of a measure. */
  readonly measured?: true;
}

export const SHEET_WIDTH = 320;
/** Height of the letters, in units of the sheet. */
export const LETTER = 13;

/** Width of each kind's line, in units of the sheet; 0 for what is filled only. */
export const LINE_WIDTHS: Readonly<Record<StrokeKind, number>> = {
  edge: 1.6,
  cut: 1.6,
  solid: 0,
  gauge: 2.2,
  fuel: 0,
  level: 1.4,
  measure: 1.4,
  head: 0,
  leader: 1,
  disc: 1.4,
};

/** Dashes of each kind that has any. */
export const DASHES: Partial<Readonly<Record<StrokeKind, string>>> = { level: "6 3" };

const of =
  (kind: StrokeKind) =>
  (...d: readonly string[]): Stroke => ({ kind, d: d.join("") });
export const edge = of("edge");
export const cut = of("cut");
export const solid = of("solid");
export const gauge = of("gauge");
export const fuel = of("fuel");
export const level = of("level");
export const leader = of("leader");

export const rect = (x: number, y: number, width: number, height: number): string =>
  `M${x} ${y}H${x + width}V${y + height}H${x}Z`;
export const circle = (x: number, y: number, r: number): string =>
  `M${x - r} ${y}A${r} ${r} 0 1 1 ${x + r} ${y}A${r} ${r} 0 1 1 ${x - r} ${y}Z`;
export const line = (x1: number, y1: number, x2: number, y2: number): string => `M${x1} ${y1}L${x2} ${y2}`;

/** A spring between two heights: `coils` zigzags of a width about a middle line. */
export function spring(x: number, top: number, bottom: number, width: number, coils: number): string {
  const half = width / 2;
  const step = (bottom - top) / (coils * 2);
  const turns = Array.from(
    { length: coils * 2 - 1 },
    (_, at) => `L${x + (at % 2 === 0 ? half : -half)} ${Number((top + (at + 1) * step).toFixed(2))}`,
  );
  return `M${x - half} ${top}${turns.join("")}L${x + half} ${bottom}`;
}

/** The head of an arrow that points from one point to another. */
function head(x1: number, y1: number, x2: number, y2: number): string {
  const length = Math.hypot(x2 - x1, y2 - y1) || 1;
  const [ux, uy] = [(x2 - x1) / length, (y2 - y1) / length];
  const at = (along: number, across: number) =>
    `${Number((x2 - ux * along - uy * across).toFixed(2))} ${Number((y2 - uy * along + ux * across).toFixed(2))}`;
  return `M${x2} ${y2}L${at(8, 3.2)}L${at(8, -3.2)}Z`;
}

/** A distance between two points that is read, with a head at each end. */
export const span = (x1: number, y1: number, x2: number, y2: number): readonly Stroke[] => [
  { kind: "measure", d: line(x1, y1, x2, y2) },
  { kind: "head", d: head(x1, y1, x2, y2) + head(x2, y2, x1, y1) },
];

/** A movement from one point to another. */
export const arrow = (x1: number, y1: number, x2: number, y2: number): readonly Stroke[] => [
  { kind: "measure", d: line(x1, y1, x2, y2) },
  { kind: "head", d: head(x1, y1, x2, y2) },
];

const text =
  (anchor: DrawnLabel["anchor"]) =>
  (x: number, y: number, words: string): DrawnLabel => ({ x, y, text: words, anchor });
export const from = text("start");
export const middle = text("middle");
export const until = text("end");
export const measured = (label: DrawnLabel): DrawnLabel => ({ ...label, measured: true });
