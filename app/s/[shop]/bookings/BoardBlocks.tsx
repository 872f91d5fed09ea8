"use client";
import { cx } from "@/app/_ui/cx";
import type { BlockTone } from "@/app/_ui/DayRule";
import { Link } from "@/app/_ui/Link";
import type { Placed } from "@/lib/domain/schedule/boardMove";
import { type BoardBlock, type BoardRow, clockText } from "./boardTypes";
import type { useBoardMove } from "./useBoardMove";

interface BoardBlocksProps {
  shop: string;
  among: "bays" | "people";
  row: BoardRow;
  top: number;
  box: number;
  /** Percent of the width at a minute of the day. */
  at: (minutes: number) => number;
  day: string;
  blocks: readonly BoardBlock[];
  moving: ReturnType<typeof useBoardMove>;
  rowAt: (clientY: number) => Partial<Placed>;
}

const FILL: Readonly<Record<BlockTone, string>> = {
  now: "fill-brass-wash",
  done: "fill-hair",
  planned: "fill-sheet",
  caution: "fill-oxide-wash",
};

/** The bookings of one bay or one person, and the place that one of them is about to be put. */
export function BoardBlocks({
  shop,
  among,
  row,
  top,
  box,
  at,
  day,
  blocks,
  moving,
  rowAt,
}: BoardBlocksProps) {
  const { pending } = moving;
  const own = blocks.filter((block) => (among === "bays" ? block.bayId : block.staffId) === row.id);
  const to = pending?.placed;
  const comes =
    to && to.day === day && (among === "bays" ? to.bayId : to.staffId) === row.id ? pending : undefined;
  return (
    <>
      {own.map((block) => {
        const wide = Math.round((at(block.to) - at(block.from)) * 100) / 100;
        if (wide <= 0) return null;
        const leaves = pending?.block.id === block.id;
        const place = { x: `${at(block.from)}%`, y: top, width: `${wide}%`, height: box };
        return (
          <g key={block.id} className="group/block" opacity={leaves ? 0.45 : undefined}>
            <Link
              href={`/s/${shop}/bookings/${block.id}`}
              aria-label={`${clockText(block.from)} to ${clockText(block.to)} ${block.label}, ${row.name}`}
              aria-describedby={block.placed ? "board-keys" : undefined}
              draggable={false}
              className={cx("group touch-pan-y", block.placed && "cursor-grab")}
              onKeyDown={moving.onKey(block, among)}
              onClick={(event) => {
                if (moving.wasDragged()) event.preventDefault();
              }}
            >
              <svg
                {...place}
                onPointerDown={moving.onDown(block, "move")}
                onPointerMove={(event) => moving.onMove(event, rowAt)}
                onPointerUp={moving.onUp}
                onPointerCancel={moving.leave}
              >
                <title>{`${clockText(block.from)}–${clockText(block.to)} ${block.label}`}</title>
                <rect
                  width="100%"
                  height="100%"
                  strokeWidth="2"
                  className={cx("stroke-ink group-focus-visible:stroke-brass", FILL[block.tone])}
                />
                {block.placed && (
                  <rect
                    x="100%"
                    y="0"
                    width="12"
                    height={box}
                    transform="translate(-12 0)"
                    className="cursor-ew-resize fill-transparent"
                    onPointerDown={moving.onDown(block, "stretch")}
                  />
                )}
              </svg>
            </Link>
            {/* Beside the link, as in DayRule: what is cut off of it would count to the link's box. */}
            <svg {...place} overflow="hidden" aria-hidden="true" className="pointer-events-none">
              <text x="8" y={box / 2 + 5} className="fill-ink group-hover/block:underline">
                {block.label}
              </text>
            </svg>
          </g>
        );
      })}
      {comes && (
        <rect
          x={`${at(comes.placed.from)}%`}
          y={top}
          width={`${Math.max(0, at(endOf(comes)) - at(comes.placed.from))}%`}
          height={box}
          strokeWidth="2"
          strokeDasharray="6 4"
          className="pointer-events-none fill-brass-wash/60 stroke-brass"
        />
      )}
    </>
  );
}

/** Where its end would be with as much time off in between as now: the server says where it really is. */
function endOf({ block, placed }: NonNullable<ReturnType<typeof useBoardMove>["pending"]>): number {
  const off = block.placed ? block.to - block.from - block.placed.minutes : 0;
  return placed.from + placed.minutes + Math.max(0, off);
}
