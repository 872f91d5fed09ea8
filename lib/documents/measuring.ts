import {
  DASHES,
  type Drawing,
  LETTER,
  LINE_WIDTHS,
  SHEET_WIDTH,
  type StrokeKind,
} from "../domain/procedures/drawing";
import type { Procedure } from "../domain/procedures/procedure";
import { spokenProcedure } from "../words/measuring/measuring";
import type { PaperWords } from "../words/papers";
import { BRASS, INK, label, OXIDE, say, section } from "./look";
import type { Content } from "./pdf";

const SOFT = "#5a5f5e";
const WASH = "#f1e4c6";
const PINE = "#26594a";

/** Line and fill of each kind of stroke, on white paper. */
const COLOURS: Readonly<Record<StrokeKind, readonly [stroke: string, fill: string]>> = {
  edge: [INK, "none"],
  cut: [INK, WASH],
  solid: ["none", INK],
  gauge: [BRASS, "none"],
  fuel: ["none", WASH],
  level: [BRASS, "none"],
  measure: [PINE, "none"],
  head: ["none", PINE],
  leader: [SOFT, "none"],
  disc: [PINE, "#ffffff"],
};

/** Width of a drawing on paper, in points. */
const WIDE = 200;

/** A line drawing for the printer, from the same points as on the screen; its words are text of the paper's own faces. */
export function drawingOnPaper({ height, strokes, labels }: Drawing): Content[] {
  const paths = strokes.map(({ kind, d }) => {
    const [stroke, fill] = COLOURS[kind];
    const dash = DASHES[kind] ? ` stroke-dasharray="${DASHES[kind]}"` : "";
    return `<path d="${d}" stroke="${stroke}" fill="${fill}" stroke-width="${LINE_WIDTHS[kind]}"${dash}/>`;
  });
  const scale = WIDE / SHEET_WIDTH;
  const size = LETTER * scale;
  return [
    {
      svg: `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${SHEET_WIDTH} ${height}" width="${SHEET_WIDTH}" height="${height}">${paths.join("")}</svg>`,
      width: WIDE,
    },
    ...labels.map(({ x, y, text, anchor, measured }): Content => {
      const [alignment, from] = ALIGNED[anchor];
      return {
        ...(say(text, {
          size,
          align: alignment,
          ...(measured ? { bold: true, color: PINE } : {}),
        }) as object),
        // From the drawing's foot, where the next line would stand, up to the top of the letters.
        relativePosition: { x: x * scale - from * WIDE, y: (y - height) * scale - size },
      } as Content;
    }),
  ];
}

const ALIGNED = { start: ["left", 0], middle: ["center", 0.5], end: ["right", 1] } as const;

/** How a card's readings are taken, each procedure with its drawing; nothing where there is none. */
export function measuring(procedures: readonly Procedure[], words: PaperWords, locale: string): Content[] {
  if (procedures.length === 0) return [];
  return [section(words.howMeasured), ...procedures.map((one) => onPaper(spokenAs(one, locale)))];
}

/** A procedure in the paper's language, its drawing's labels too. */
export function spokenAs(procedure: Procedure, locale: string): Procedure {
  const spoken = spokenProcedure(procedure.id, locale);
  if (!spoken) return procedure;
  const { labels, ...said } = spoken;
  const { drawing } = procedure;
  const named = drawing.labels.map((label, at) => ({ ...label, text: labels[at] ?? label.text }));
  return { ...procedure, ...said, drawing: { ...drawing, labels: named } };
}

function onPaper(one: Procedure): Content {
  const numbered = [...(one.before ?? []), ...one.steps].map((text, at) =>
    say(`${at + 1}. ${text}`, { size: 8.5, margin: [0, 1, 0, 0] }),
  );
  return {
    columns: [
      { width: WIDE, stack: drawingOnPaper(one.drawing) },
      {
        width: "*",
        stack: [
          say(one.name, { bold: true }),
          label(`${one.instrument}. ${one.resolution}.`),
          ...one.cautions.map((text) => say(text, { bold: true, color: OXIDE, size: 8.5 })),
          ...numbered,
          label(one.readings, { margin: [0, 2, 0, 0] }),
        ],
      },
    ],
    columnGap: 14,
    unbreakable: true,
    margin: [0, 4, 0, 8],
  } as Content;
}
