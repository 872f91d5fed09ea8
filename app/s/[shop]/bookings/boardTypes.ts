import type { BlockTone } from "@/app/_ui/DayRule";
import type { Placed } from "@/lib/domain/schedule/boardMove";

export interface BoardRow {
  readonly id: number;
  readonly name: string;
}

/** A booking on the board of a day. */
export interface BoardBlock {
  readonly id: number;
  readonly version: number;
  /** "Job 635", or who comes. */
  readonly name: string;
  readonly label: string;
  readonly tone: BlockTone;
  readonly bayId: number;
  readonly staffId: number;
  /** Its part of this day, in minutes after midnight on the shop's clock. */
  readonly from: number;
  readonly to: number;
  /** Where it stands; null where it may not be moved from this board. */
  readonly placed: Placed | null;
}

/** 654 is 10:54. */
export const clockText = (minutes: number): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
