"use client";
import { useRef } from "react";
import { Button } from "@/app/_ui/Button";
import { dateText, minutesText } from "@/app/_ui/format";
import { Refused } from "@/app/_ui/Refused";
import type { Placed } from "@/lib/domain/schedule/boardMove";
import { BoardBlocks } from "./BoardBlocks";
import { type BoardBlock, type BoardRow, clockText } from "./boardTypes";
import { useBoardMove } from "./useBoardMove";

export interface BoardProps {
  shop: string;
  title: string;
  day: string;
  locale: string;
  /** First and last minute of the day that is ruled. */
  from: number;
  to: number;
  now: number | undefined;
  bays: readonly BoardRow[];
  people: readonly BoardRow[];
  blocks: readonly BoardBlock[];
}

const HEAD = 26;
const NAME = 20;
const BOX = 48;
const PITCH = NAME + BOX + 8;
const GAP = 10;

/** The day ruled in hours, by bay and by person. Bookings are moved and stretched on it by pointer and by keys. */
export function Board({ shop, title, day, locale, from, to, now, bays, people, blocks }: BoardProps) {
  const drawing = useRef<SVGSVGElement>(null);
  const ids = (rows: readonly BoardRow[]) => rows.map(({ id }) => id);
  const moving = useBoardMove(shop, day, to - from, { bays: ids(bays), people: ids(people) });
  const { pending, state, sending } = moving;
  // To a hundredth of a percent: finer is not drawn.
  const at = (minutes: number) =>
    Math.round(((Math.min(Math.max(minutes, from), to) - from) / (to - from)) * 10_000) / 100;
  const groups = [
    { among: "bays" as const, rows: bays, top: HEAD },
    { among: "people" as const, rows: people, top: HEAD + bays.length * PITCH + GAP },
  ];
  const height = HEAD + (bays.length + people.length) * PITCH + GAP + 18;
  const hours = Array.from(
    { length: Math.floor(to / 60) - Math.ceil(from / 60) + 1 },
    (_, i) => Math.ceil(from / 60) + i,
  );
  const nameIn = (rows: readonly BoardRow[], id: number) => rows.find((row) => row.id === id)?.name ?? "";
  const said = (placed: Placed) =>
    [
      nameIn(bays, placed.bayId),
      nameIn(people, placed.staffId),
      dateText(placed.day, locale, "weekday"),
      `${clockText(placed.from)}, ${minutesText(placed.minutes, "min", "h")} of work`,
    ].join(", ");
  const rowAt = (among: "bays" | "people") => (clientY: number) => {
    const box = drawing.current?.getBoundingClientRect();
    const group = groups.find((one) => one.among === among);
    if (!box || !group) return {};
    const row = group.rows[Math.floor((clientY - box.top - group.top) / PITCH)];
    return row ? { [among === "bays" ? "bayId" : "staffId"]: row.id } : {};
  };
  const movable = blocks.some((block) => block.placed !== null);
  return (
    <div className="min-w-0">
      {movable && (
        <p id="board-keys" className="mb-2 text-[14px] text-soft">
          Drag a booking, or move it with the arrow keys; its end, or Shift with them, makes it longer or
          shorter; Page Up and Page Down take it to another day. Enter keeps the new place, Escape leaves it.
        </p>
      )}
      <div className="px-2.5">
        {/* biome-ignore lint/a11y/useSemanticElements: a drawing that holds links is a group, and no fieldset */}
        <svg
          ref={drawing}
          data-board=""
          role="group"
          aria-label={title}
          width="100%"
          height={height}
          overflow="visible"
          className="block max-w-full select-none font-sans text-[13px]"
        >
          <title>{title}</title>
          {hours.map((hour) => (
            <g key={hour}>
              <line
                x1={`${at(hour * 60)}%`}
                x2={`${at(hour * 60)}%`}
                y1={HEAD - 8}
                y2={height - 14}
                className="stroke-hair"
              />
              <text x={`${at(hour * 60)}%`} y="12" textAnchor="middle" className="fill-soft font-mono">
                {hour}
              </text>
            </g>
          ))}
          {groups.map(({ among, rows, top }) =>
            rows.map((row, index) => (
              <g key={`${among}-${row.id}`}>
                <text x={0} y={top + index * PITCH + NAME - 6} className="fill-ink font-semibold">
                  {row.name}
                </text>
                <BoardBlocks
                  shop={shop}
                  among={among}
                  row={row}
                  top={top + index * PITCH + NAME}
                  box={BOX}
                  at={at}
                  day={day}
                  blocks={blocks}
                  moving={moving}
                  rowAt={rowAt(among)}
                />
              </g>
            )),
          )}
          {now !== undefined && now >= from && now <= to && (
            <g className="pointer-events-none">
              <line
                x1={`${at(now)}%`}
                x2={`${at(now)}%`}
                y1={HEAD - 10}
                y2={height - 12}
                className="stroke-oxide"
                strokeWidth="2"
              />
              <text
                x={`${at(now)}%`}
                y={height}
                textAnchor={at(now) > 85 ? "end" : at(now) < 15 ? "start" : "middle"}
                className="fill-oxide font-mono"
              >
                {clockText(now)}
              </text>
            </g>
          )}
        </svg>
      </div>
      <div role="status" className="mt-2 min-h-6">
        {pending && `${pending.block.name}: ${said(pending.placed)}.`}
      </div>
      {pending && state.ok === false && state.message && (
        <Refused message={state.message} remedy={state.remedy} />
      )}
      {pending && (
        <p className="mt-1 flex flex-wrap gap-3">
          <Button tone="main" disabled={sending} onClick={() => moving.keep(pending)}>
            Put it there
          </Button>
          <Button tone="quiet" onClick={moving.leave}>
            Leave it where it was
          </Button>
        </p>
      )}
    </div>
  );
}
