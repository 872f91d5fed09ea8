/** The sheet that a signature is drawn on, in units of its own, and the most that is kept of one. Judgement. */
export const SIGNATURE = {
  width: 600,
  height: 200,
  mostStrokes: 60,
  /** Of all strokes together. */
  mostPoints: 2000,
  /** A point nearer to the one before says nothing more, in units of the sheet. */
  nearest: 3,
  /** Ink shorter than this is a slip of the finger, in units of the sheet. */
  leastInk: 60,
} as const;

export type SignaturePoint = readonly [x: number, y: number];
export type SignatureStroke = readonly SignaturePoint[];

/** The most characters that strokes within the bounds are written in: "600,200" and a separator for each point. */
export const MOST_SIGNATURE_TEXT = SIGNATURE.mostPoints * 8;

const WRITTEN = /^\d{1,3},\d{1,3}(?:[ ;]\d{1,3},\d{1,3})*$/;

/** Strokes as text: "x,y x,y;x,y", whole units of the sheet. Empty for no strokes. */
export function signatureText(strokes: readonly SignatureStroke[]): string {
  return strokes.map((stroke) => stroke.map(([x, y]) => `${x},${y}`).join(" ")).join(";");
}

/** Strokes from such text; none for an empty one, null for a text that is no signature within the bounds of `SIGNATURE`. */
export function signatureStrokes(text: string): SignatureStroke[] | null {
  if (text === "") return [];
  if (text.length > MOST_SIGNATURE_TEXT || !WRITTEN.test(text)) return null;
  const strokes = text
    .split(";")
    .map((stroke) => stroke.split(" ").map((point) => point.split(",").map(Number) as [number, number]));
  const points = strokes.flat();
  const inside = points.every(([x, y]) => x <= SIGNATURE.width && y <= SIGNATURE.height);
  return inside && strokes.length <= SIGNATURE.mostStrokes && points.length <= SIGNATURE.mostPoints
    ? strokes
    : null;
}

/** Length of all that was drawn, in units of the sheet. */
export function inkOf(strokes: readonly SignatureStroke[]): number {
  return strokes.reduce((sum, stroke) => sum + lengthOf(stroke), 0);
}

function lengthOf(stroke: SignatureStroke): number {
  return stroke.reduce((sum, [x, y], at) => {
    const [fromX, fromY] = stroke[at - 1] ?? [x, y];
    return sum + Math.hypot(x - fromX, y - fromY);
  }, 0);
}

/**
 * Strokes with one more point, at the end of the last one or as a new one's first. The point is rounded and kept on the sheet;
 * one that is too near to the last, or past the bounds, changes nothing.
 */
export function withPoint(
  strokes: readonly SignatureStroke[],
  at: SignaturePoint,
  begins: boolean,
): readonly SignatureStroke[] {
  const point: SignaturePoint = [onSheet(at[0], SIGNATURE.width), onSheet(at[1], SIGNATURE.height)];
  const points = strokes.reduce((sum, stroke) => sum + stroke.length, 0);
  if (points >= SIGNATURE.mostPoints) return strokes;
  if (begins) return strokes.length >= SIGNATURE.mostStrokes ? strokes : [...strokes, [point]];
  const [last, before] = [strokes.at(-1), strokes.at(-1)?.at(-1)];
  if (!last || !before) return strokes;
  if (Math.hypot(point[0] - before[0], point[1] - before[1]) < SIGNATURE.nearest) return strokes;
  return [...strokes.slice(0, -1), [...last, point]];
}

const onSheet = (at: number, most: number) => Math.round(Math.min(Math.max(at, 0), most));

/**
 * Strokes as SVG path data of M, L and Q, absolute: curves from middle to middle of neighbouring points, which pass smoothly
 * where a finger moved fast. A stroke of one point is a dot, as a line of no length with round ends draws it.
 */
export function signaturePath(strokes: readonly SignatureStroke[]): string {
  return strokes
    .map((stroke) => {
      const [first, ...rest] = stroke;
      const last = stroke.at(-1);
      if (!first || !last) return "";
      const curves = rest.slice(0, -1).map(([x, y], at) => {
        const [nextX, nextY] = rest[at + 1] ?? [x, y];
        return `Q${x} ${y} ${(x + nextX) / 2} ${(y + nextY) / 2}`;
      });
      return `M${first[0]} ${first[1]}${curves.join("")}L${last[0]} ${last[1]}`;
    })
    .join("");
}
