import { Chart } from "./Chart";
import { cx } from "./cx";
import { moneyText } from "./moneyText";

/** How a piece is filled; each look differs by more than its colour. */
export type PieceLook =
  | "solid"
  | "calm"
  | "wanted"
  | "slanted"
  | "back"
  | "across"
  | "dotted"
  | "upright"
  | "off";

export interface PricePiece {
  readonly key: string;
  readonly label: string;
  /** Above zero; what comes off has the look "off" and is written with a minus. */
  readonly minor: number;
  readonly look: PieceLook;
}

export interface PriceBarProps {
  title: string;
  description: string;
  /** Two rows of the same whole: what it is made of, and what becomes of it. */
  rows: readonly { readonly name: string; readonly pieces: readonly PricePiece[] }[];
  currency: string;
  locale: string;
}

const GROUND: Record<PieceLook, string> = {
  solid: "fill-brass-wash",
  calm: "fill-hair",
  wanted: "fill-pine-wash",
  slanted: "fill-sheet",
  back: "fill-sheet",
  across: "fill-sheet",
  dotted: "fill-sheet",
  upright: "fill-sheet",
  off: "fill-none",
};
const LINES: Partial<Record<PieceLook, string>> = {
  slanted: "M-1 1l2-2M0 6l6-6M5 7l2-2",
  back: "M-1 5l2 2M0 0l6 6M5-1l2 2",
  across: "M0 3h6",
  dotted: "M3 2.5v1",
  upright: "M3 0v6",
};
const TALL = [34, 20];
const GAP = 5;
/** Pixels a letter takes, and the width the words inside are fitted to. */
const LETTER = 7.2;
const MIDDLE = 400;
const NARROW = 300;

const percent = (share: number) => `${Math.round(share * 100) / 100}%`;

/** A price as one stacked bar in two rows of one length: what is charged, and what becomes of it. */
export function PriceBar({ title, description, rows, currency, locale }: PriceBarProps) {
  const says = ({ minor, look }: PricePiece) => moneyText(look === "off" ? -minor : minor, currency, locale);
  const height = rows.reduce((sum, _, at) => sum + (TALL[at] ?? 20) + GAP, 0);
  const draw = (room: number, prefix: string) => (
    <>
      <Patterns prefix={prefix} looks={rows.flatMap(({ pieces }) => pieces.map((piece) => piece.look))} />
      {rows.map(({ name, pieces }, at) => (
        <Row
          key={name}
          pieces={pieces}
          y={1 + TALL.slice(0, at).reduce((sum, tall) => sum + tall + GAP, 0)}
          tall={TALL[at] ?? 20}
          room={room}
          prefix={prefix}
          says={says}
        />
      ))}
    </>
  );
  return (
    <Chart
      title={title}
      description={description}
      height={height}
      inset="px-px"
      narrow={{ height, children: draw(NARROW, "price-n") }}
      table={{
        head: ["row", "piece", currency],
        rows: rows.flatMap(({ name, pieces }) => pieces.map((piece) => [name, piece.label, says(piece)])),
      }}
      legend={
        <div className="text-[14px]">
          {rows.map(({ name, pieces }) => (
            <ul key={name} aria-label={name} className="mt-1.5 flex flex-wrap gap-x-5 gap-y-1">
              {pieces.map((piece) => (
                <li key={piece.key} className="flex items-center gap-1.5">
                  <svg aria-hidden="true" width="18" height="14" className="flex-none">
                    <Patterns prefix={`price-k-${piece.key}`} looks={[piece.look]} />
                    <Piece piece={piece} x="1" width="16" y={1} tall={12} prefix={`price-k-${piece.key}`} />
                  </svg>
                  {piece.label} <span className="font-mono">{says(piece)}</span>
                </li>
              ))}
            </ul>
          ))}
        </div>
      }
    >
      {draw(MIDDLE, "price-m")}
    </Chart>
  );
}

function Row({
  pieces,
  y,
  tall,
  room,
  prefix,
  says,
}: {
  pieces: readonly PricePiece[];
  y: number;
  tall: number;
  room: number;
  prefix: string;
  says: (piece: PricePiece) => string;
}) {
  const whole = pieces.reduce((sum, piece) => sum + piece.minor, 0) || 1;
  let left = 0;
  return pieces.map((piece) => {
    const wide = (piece.minor / whole) * 100;
    const at = left;
    left += wide;
    const fits = piece.label.length * LETTER + 8 < (wide / 100) * room;
    return (
      <g key={piece.key}>
        <title>{`${piece.label} ${says(piece)}`}</title>
        <Piece piece={piece} x={percent(at)} width={percent(wide)} y={y} tall={tall} prefix={prefix} />
        {fits && (
          <text
            x={percent(at + wide / 2)}
            y={y + tall / 2 + 4.5}
            textAnchor="middle"
            strokeWidth="4"
            paintOrder="stroke"
            className={cx("fill-ink", LINES[piece.look] && "stroke-sheet")}
          >
            {piece.label}
          </text>
        )}
      </g>
    );
  });
}

function Piece({
  piece,
  x,
  width,
  y,
  tall,
  prefix,
}: {
  piece: PricePiece;
  x: string;
  width: string;
  y: number;
  tall: number;
  prefix: string;
}) {
  const box = { x, y, width, height: tall };
  return (
    <>
      <rect {...box} className={GROUND[piece.look]} />
      <rect
        {...box}
        fill={LINES[piece.look] ? `url(#${prefix}-${piece.look})` : "none"}
        strokeDasharray={piece.look === "off" ? "4 3" : undefined}
        className="stroke-ink"
      />
    </>
  );
}

/** A pattern is found by its id over the whole page, so each drawing has its own. */
function Patterns({ prefix, looks }: { prefix: string; looks: readonly PieceLook[] }) {
  return (
    <defs>
      {Object.entries(LINES)
        .filter(([look]) => looks.some((one) => one === look))
        .map(([look, path]) => (
          <pattern
            key={look}
            id={`${prefix}-${look}`}
            width="6"
            height="6"
            patternUnits="userSpaceOnUse"
            className="fill-none stroke-soft"
          >
            <path d={path} strokeWidth={look === "dotted" ? 2 : 1} strokeLinecap="round" />
          </pattern>
        ))}
    </defs>
  );
}
