import { type Row, table } from "./floor";

/** What a part of the bench found. */
export interface Report {
  readonly text: string;
  /** All of it, where the screen is shown the worst alone. */
  readonly whole?: string;
  /** Each thing that has a goal, and whether it is met. */
  readonly goals: readonly { readonly work: string; readonly met: boolean }[];
}

export function reportOf(rows: readonly Row[]): Report {
  return {
    text: table(rows),
    goals: rows.flatMap((row) => (row.goal ? [{ work: row.work, met: row.goal.met(row) }] : [])),
  };
}

/** A part's goals in a line: how many there are, and which are missed. */
export function goalsOf(part: string, { goals }: Report): string[] {
  const missed = goals.filter((goal) => !goal.met).map((goal) => goal.work);
  if (goals.length === 0) return [];
  return [
    `${part}: ${goals.length - missed.length} of ${goals.length} goals met${missed.length > 0 ? `; missed: ${missed.join("; ")}` : ""}`,
  ];
}
