"use client";
import type { ReactNode } from "react";
import { Chart } from "./Chart";
import { cx } from "./cx";
import { Link } from "./Link";

export type BlockTone = "now" | "done" | "planned" | "caution";

export interface DayBlock {
  /** Minutes after midnight on the shop's clock. */
  readonly from: number;
  readonly to: number;
  readonly label: string;
  readonly href?: string | undefined;
  readonly tone?: BlockTone | undefined;
}

export interface DayRow {
  readonly name: string;
  readonly blocks: readonly DayBlock[];
}

export interface DayRuleProps {
  title: string;
  description: string;
  /** First and last minute shown, after midnight. */
  from: number;
  to: number;
  rows: readonly DayRow[];
  now?: number | undefined;
}

const FILL: Record<BlockTone, string> = {
  now: "fill-brass-wash",
  done: "fill-hair",
  planned: "fill-sheet",
  caution: "fill-oxide-wash",
};

/** 654 is 10:54. */
function clockText(minutes: number): string {
  return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
}

const RULE = 26;

/** A day of bays or people ruled in hours, with the now-line. */
export function DayRule({ title, description, from, to, rows, now }: DayRuleProps) {
  // To a hundredth of a percent: finer is not drawn.
  const at = (minutes: number) =>
    Math.round(((Math.min(Math.max(minutes, from), to) - from) / (to - from)) * 10_000) / 100;
  const hours: number[] = [];
  for (let hour = Math.ceil(from / 60); hour * 60 <= to; hour += 1) hours.push(hour);
  const nowShown = now !== undefined && now >= from && now <= to ? now : undefined;

  const draw = (pitch: number, box: number, named: "beside" | "above"): ReactNode => {
    const floor = RULE + rows.length * pitch + 4;
    return (
      <>
        {hours.map((hour) => (
          <g key={hour}>
            <line
              x1={`${at(hour * 60)}%`}
              x2={`${at(hour * 60)}%`}
              y1={RULE - 6}
              y2={floor}
              className="stroke-hair"
            />
            <text x={`${at(hour * 60)}%`} y="12" textAnchor="middle" className="fill-soft font-mono">
              {hour}
            </text>
          </g>
        ))}
        {rows.map((row, index) => {
          const top = RULE + index * pitch + (pitch - box - 4);
          return (
            <g key={row.name}>
              <text
                x={named === "beside" ? -110 : 0}
                y={named === "beside" ? top + box / 2 + 5 : top - 6}
                className="fill-ink font-semibold"
              >
                {row.name}
              </text>
              {row.blocks.map((block) => (
                <Block key={`${block.from}-${block.label}`} block={block} top={top} box={box} at={at} />
              ))}
            </g>
          );
        })}
        {nowShown !== undefined && (
          <g className="pointer-events-none">
            <line
              x1={`${at(nowShown)}%`}
              x2={`${at(nowShown)}%`}
              y1={RULE - 10}
              y2={floor + 8}
              className="stroke-oxide"
              strokeWidth="2"
            />
            <text
              x={`${at(nowShown)}%`}
              dx={at(nowShown) > 85 ? -6 : 6}
              y={floor + 16}
              textAnchor={at(nowShown) > 85 ? "end" : "start"}
              className="fill-oxide font-mono"
            >
              {clockText(nowShown)}
            </text>
          </g>
        )}
      </>
    );
  };
  return (
    <Chart
      title={title}
      description={description}
      holdsLinks
      height={RULE + rows.length * 50 + 26}
      inset="px-2.5 @[520px]:pl-[110px]"
      narrow={{ height: RULE + rows.length * 76 + 26, children: draw(76, 48, "above") }}
      table={{
        head: ["", "from", "to", "work"],
        rows: rows.flatMap((row) =>
          row.blocks.map((block) => [row.name, clockText(block.from), clockText(block.to), block.label]),
        ),
      }}
    >
      {draw(50, 38, "beside")}
    </Chart>
  );
}

interface BlockProps {
  block: DayBlock;
  top: number;
  box: number;
  at: (minutes: number) => number;
}

function Block({ block, top, box, at }: BlockProps) {
  const wide = at(block.to) - at(block.from);
  if (wide <= 0) return null;
  const place = { x: `${at(block.from)}%`, y: top, width: `${wide}%`, height: box };
  const drawing = (
    <svg {...place}>
      <title>{`${clockText(block.from)}–${clockText(block.to)} ${block.label}`}</title>
      <rect
        width="100%"
        height="100%"
        strokeWidth="2"
        className={cx("stroke-ink", FILL[block.tone ?? "planned"])}
      />
    </svg>
  );
  return (
    <g className="group">
      {block.href ? (
        <Link href={block.href} aria-label={`${clockText(block.from)} ${block.label}`}>
          {drawing}
        </Link>
      ) : (
        drawing
      )}
      {/* Beside the link: what is cut off of a long label would count to the link's middle, and lie under the next block. */}
      <svg {...place} overflow="hidden" aria-hidden="true" className="pointer-events-none">
        <text x="8" y={box / 2 + 5} className={cx("fill-ink", block.href && "group-hover:underline")}>
          {block.label}
        </text>
      </svg>
    </g>
  );
}
