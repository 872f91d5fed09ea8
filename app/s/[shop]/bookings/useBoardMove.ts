"use client";
import { type KeyboardEvent, type PointerEvent, startTransition, useRef, useState } from "react";
import { useToasts } from "@/app/_ui/toastContext";
import { useGuardedAction } from "@/app/_ui/useGuardedAction";
import {
  type BoardRows,
  lengthOver,
  movedByKey,
  type Placed,
  samePlace,
  startWithin,
} from "@/lib/domain/schedule/boardMove";
import { moveOnBoard } from "./actions";
import { type BoardBlock, clockText } from "./boardTypes";

/** A booking on its way to another place: nothing is kept before it is put down. */
export interface Pending {
  readonly block: BoardBlock;
  readonly placed: Placed;
}

interface Drag {
  readonly block: BoardBlock;
  readonly placed: Placed;
  readonly how: "move" | "stretch";
  readonly x: number;
  readonly y: number;
  /** Minutes of the day for each pixel. */
  readonly scale: number;
  moved: boolean;
  to: Placed;
}

/** Nearer than this a press is a press and no move, in pixels. */
const SLACK = 6;

/** Moving and stretching bookings by pointer and by keys, and putting them down. */
export function useBoardMove(shop: string, day: string, span: number, rows: BoardRows) {
  const toasts = useToasts();
  const [pending, setPending] = useState<Pending>();
  const drag = useRef<Drag>(undefined);
  const [state, run, sending] = useGuardedAction(
    moveOnBoard,
    (answer) => {
      if (!answer.ok) return;
      setPending(undefined);
      if (answer.toast) toasts.say({ text: answer.toast });
    },
    () => setPending(undefined),
  );
  const keep = ({ block, placed }: Pending) => {
    const data = new FormData();
    const said = { ...placed, time: clockText(placed.from), id: block.id, version: block.version, seen: day };
    for (const [name, value] of Object.entries(said)) if (name !== "from") data.set(name, String(value));
    data.set("_shop", shop);
    startTransition(() => run(data));
  };
  const onKey = (block: BoardBlock, among: "bays" | "people") => (event: KeyboardEvent) => {
    if (!block.placed || sending || event.altKey || event.ctrlKey || event.metaKey) return;
    const mine = pending?.block.id === block.id ? pending.placed : block.placed;
    if (event.key === "Escape" && pending) setPending(undefined);
    else if (event.key === "Enter" && pending?.block.id === block.id) keep(pending);
    else {
      const to = movedByKey(mine, { key: event.key, shift: event.shiftKey }, among, rows);
      if (!to) return;
      setPending(samePlace(to, block.placed) ? undefined : { block, placed: to });
    }
    event.preventDefault();
  };
  const onDown = (block: BoardBlock, how: Drag["how"]) => (event: PointerEvent<SVGElement>) => {
    const box = event.currentTarget.closest("svg[data-board]")?.getBoundingClientRect();
    if (!block.placed || sending || event.button !== 0 || !box) return;
    event.stopPropagation();
    event.currentTarget.setPointerCapture(event.pointerId);
    const { clientX: x, clientY: y } = event;
    drag.current = {
      block,
      placed: block.placed,
      how,
      x,
      y,
      scale: span / box.width,
      moved: false,
      to: block.placed,
    };
  };
  /** `rowAt` says which row lies at a height of the screen, if any of those that the booking may go to. */
  const onMove = (event: PointerEvent, rowAt: (clientY: number) => Partial<Placed>) => {
    const now = drag.current;
    if (!now) return;
    if (!now.moved && Math.hypot(event.clientX - now.x, event.clientY - now.y) < SLACK) return;
    now.moved = true;
    const by = (event.clientX - now.x) * now.scale;
    const { placed, block } = now;
    const to =
      now.how === "stretch"
        ? { ...placed, minutes: lengthOver(placed.minutes + by) }
        : { ...placed, from: startWithin(placed.from + by), ...rowAt(event.clientY) };
    now.to = to;
    setPending(samePlace(to, placed) ? undefined : { block, placed: to });
  };
  const onUp = () => {
    const now = drag.current;
    // The click that follows is of a move, and opens nothing.
    setTimeout(() => {
      drag.current = undefined;
    });
    if (now?.moved && !samePlace(now.to, now.placed)) keep({ block: now.block, placed: now.to });
  };
  return {
    pending,
    state,
    sending,
    keep,
    leave: () => setPending(undefined),
    onKey,
    onDown,
    onMove,
    onUp,
    wasDragged: () => drag.current?.moved === true,
  };
}
