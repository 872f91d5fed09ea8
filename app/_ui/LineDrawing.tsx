import {
  DASHES,
  type Drawing,
  LETTER,
  LINE_WIDTHS,
  SHEET_WIDTH,
  type StrokeKind,
} from "@/lib/domain/procedures/drawing";

const LOOK: Readonly<Record<StrokeKind, string>> = {
  edge: "fill-none stroke-ink",
  cut: "fill-brass-wash stroke-ink",
  solid: "fill-ink stroke-none",
  gauge: "fill-none stroke-brass",
  fuel: "fill-brass-fill/40 stroke-none",
  level: "fill-none stroke-brass",
  measure: "fill-none stroke-pine",
  head: "fill-pine stroke-none",
  leader: "fill-none stroke-soft",
  disc: "fill-sheet stroke-pine",
};

/** A line drawing with its name and its description; as wide as there is room, up to a size at which lines stay fine. */
export function LineDrawing({ drawing }: { drawing: Drawing }) {
  return (
    <svg
      role="img"
      viewBox={`0 0 ${SHEET_WIDTH} ${drawing.height}`}
      width="100%"
      className="keep block max-w-[440px] font-sans print:max-w-[300px]"
      strokeLinejoin="round"
      strokeLinecap="round"
    >
      <title>{drawing.title}</title>
      <desc>{drawing.description}</desc>
      {drawing.strokes.map(({ kind, d }, at) => (
        <path
          // biome-ignore lint/suspicious/noArrayIndexKey: the strokes of a drawing never move
          key={at}
          d={d}
          strokeWidth={LINE_WIDTHS[kind]}
          strokeDasharray={DASHES[kind]}
          className={LOOK[kind]}
        />
      ))}
      {drawing.labels.map(({ x, y, text, anchor, measured }) => (
        <text
          key={`${x} ${y}`}
          x={x}
          y={y}
          textAnchor={anchor}
          fontSize={LETTER}
          className={measured ? "fill-pine font-semibold" : "fill-ink"}
        >
          {text}
        </text>
      ))}
    </svg>
  );
}
