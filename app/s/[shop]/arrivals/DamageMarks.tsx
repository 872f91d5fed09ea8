"use client";
import { type MouseEvent, useContext, useEffect, useRef, useState } from "react";
import { Button } from "@/app/_ui/Button";
import { FormContext } from "@/app/_ui/formContext";
import { LineDrawing } from "@/app/_ui/LineDrawing";
import type { Choice } from "@/app/_ui/SelectField";
import { MOST_DAMAGES, partAt, placeOf, SIDES, type Side } from "@/lib/domain/arrival/damage";
import { BIKE_HEIGHT, motorcycle } from "@/lib/domain/arrival/motorcycle";
import { SHEET_WIDTH } from "@/lib/domain/procedures/drawing";
import { DamageFields } from "./DamageFields";
import { type DamageRow, typedRows } from "./damageRows";

export interface DamageMarksProps {
  parts: readonly Choice[];
  whats: readonly Choice[];
  initial: readonly DamageRow[];
}

/** Damage on the drawing of a bike: touch a place and say what it is, or name the part. Sends `damages.<n>.…`. */
export function DamageMarks(props: DamageMarksProps) {
  const { seq, values } = useContext(FormContext);
  return <Marks key={seq} {...props} initial={typedRows(values) ?? props.initial} />;
}

interface Kept extends DamageRow {
  readonly key: number;
}

/** Without scripts a few marks are named in rows that are there from the start. */
const PLAIN_ROWS = [60, 61, 62, 63, 64, 65];

function Marks({ parts, whats, initial }: DamageMarksProps) {
  const [rows, setRows] = useState<readonly Kept[]>(() => initial.map((row, key) => ({ ...row, key })));
  const next = useRef(initial.length);
  const added = useRef<number>(undefined);
  const list = useRef<HTMLOListElement>(null);
  useEffect(() => {
    if (added.current === undefined) return;
    list.current?.querySelector<HTMLSelectElement>(`[data-row="${added.current}"] select`)?.focus();
    added.current = undefined;
  });
  const add = (row: Partial<DamageRow> & { side: Side }) => {
    if (rows.length >= MOST_DAMAGES) return;
    const key = next.current++;
    added.current = key;
    setRows([...rows, { part: "", what: "", note: "", x: "", y: "", firstId: "", ...row, key }]);
  };
  const mark = (side: Side) => (event: MouseEvent<HTMLButtonElement>) => {
    // A key says no place: the part is named.
    if (event.detail === 0) return add({ side });
    const box = event.currentTarget.querySelector("svg")?.getBoundingClientRect();
    if (!box) return;
    const on = (at: number, from: number, length: number, most: number) =>
      Math.round(Math.min(Math.max((at - from) / length, 0), 1) * most);
    const x = on(event.clientX, box.left, box.width, SHEET_WIDTH);
    const y = on(event.clientY, box.top, box.height, BIKE_HEIGHT);
    add({ side, x: String(x), y: String(y), part: partAt(x, y, side, SHEET_WIDTH) });
  };
  const change = (key: number, to: Partial<DamageRow>) =>
    setRows(rows.map((row) => (row.key === key ? { ...row, ...to } : row)));
  const marksOf = (side: Side) =>
    rows.flatMap((row, at) => {
      if (row.side !== side || (row.x === "" && row.part === "")) return [];
      const [x, y] = row.part === "" ? [0, 0] : placeOf(row.part, side, SHEET_WIDTH);
      return [{ number: at + 1, x: row.x === "" ? x : Number(row.x), y: row.y === "" ? y : Number(row.y) }];
    });
  return (
    <>
      <div className="noscript:hidden">
        <p className="mb-2 text-soft">
          Touch the place, then say what it is. A row below can also name the part.
        </p>
        <div className="grid gap-4 sm:grid-cols-2">
          {SIDES.map((side) => (
            <button
              key={side}
              type="button"
              onClick={mark(side)}
              aria-label={`Mark a place on the ${side} side`}
              className="block w-full max-w-[440px] cursor-crosshair touch-manipulation rounded-[3px] border border-hair bg-sheet"
            >
              <LineDrawing drawing={motorcycle(side, marksOf(side))} />
            </button>
          ))}
        </div>
      </div>
      <ol ref={list} aria-label="Marks">
        {rows.map((row, at) => (
          <li key={row.key} data-row={row.key}>
            <DamageFields
              at={at}
              number={at + 1}
              row={row}
              parts={parts}
              whats={whats}
              onChange={(to) => change(row.key, to)}
              onRemove={() => setRows(rows.filter((one) => one.key !== row.key))}
            />
          </li>
        ))}
      </ol>
      <noscript>
        {PLAIN_ROWS.map((at) => (
          <DamageFields key={at} at={at} number={rows.length + at - 59} parts={parts} whats={whats} />
        ))}
      </noscript>
      <div className="mt-3 flex flex-wrap gap-3 noscript:hidden">
        {SIDES.map((side) => (
          <Button
            key={side}
            tone="second"
            onClick={() => add({ side })}
            disabled={rows.length >= MOST_DAMAGES}
          >
            Name a part, {side} side
          </Button>
        ))}
      </div>
      {rows.length >= MOST_DAMAGES && (
        <p role="status" className="mt-2 text-soft">
          These are all the marks there is room for: a photo says the rest.
        </p>
      )}
    </>
  );
}
