import { type Face, runsOf } from "./fonts";
import type { Content, TableCell } from "./pdf";

/** The ledger's colours, for white paper. */
export const INK = "#1c2022";
const SOFT = "#5a5f5e";
const HAIR = "#ddd6c8";
export const BRASS = "#8a5f12";
export const OXIDE = "#9a2e1e";

interface Look {
  readonly size?: number;
  readonly bold?: boolean;
  readonly color?: string;
  readonly align?: "left" | "right" | "center";
  readonly margin?: [number, number, number, number];
  readonly face?: Face;
  readonly noWrap?: boolean;
}

/** A piece of text in faces that hold its characters. */
export function say(text: string, look: Look = {}): Content {
  return {
    text: runsOf(text, look.face ?? "Text").map((run) => ({ text: run.text, font: run.font })),
    ...(look.size ? { fontSize: look.size } : {}),
    ...(look.bold ? { bold: true } : {}),
    ...(look.color ? { color: look.color } : {}),
    ...(look.align ? { alignment: look.align } : {}),
    ...(look.margin ? { margin: look.margin } : {}),
    ...(look.noWrap ? { noWrap: true } : {}),
  };
}

/** A figure: in the figure face, at the end of its column. */
export const figure = (text: string, look: Look = {}) =>
  say(text, { face: "Figure", align: "right", size: 9, noWrap: true, ...look });

/** A small quiet label. */
export const label = (text: string, look: Look = {}) => say(text, { size: 8, color: SOFT, ...look });

/** A part's label; kept with what follows it. */
export function section(title: string): Content {
  return {
    ...(say(title, { size: 9, bold: true, color: SOFT, margin: [0, 12, 0, 3] }) as object),
    headlineLevel: 1,
  } as Content;
}

export interface Column {
  readonly head: string;
  readonly width: string | number;
  readonly end?: boolean;
}

/** A ledger: a heading that repeats on each page, a hair line under each row, no row torn over two pages. */
export function ledger(columns: readonly Column[], rows: readonly (readonly Content[])[]): Content {
  const head = columns.map((column) => label(column.head, column.end ? { align: "right" } : {}) as TableCell);
  return {
    table: {
      headerRows: 1,
      dontBreakRows: true,
      keepWithHeaderRows: 1,
      widths: columns.map((column) => column.width),
      body: [head, ...rows.map((row) => row.map((cell) => cell as TableCell))],
    },
    layout: {
      hLineWidth: (at: number) => (at === 0 ? 0 : at === 1 ? 0.9 : 0.5),
      vLineWidth: () => 0,
      hLineColor: (at: number) => (at === 1 ? INK : HAIR),
      paddingLeft: (at: number) => (at === 0 ? 0 : 6),
      paddingRight: (at: number) => (at === columns.length - 1 ? 0 : 6),
      paddingTop: () => 3,
      paddingBottom: () => 3,
    },
  };
}

/** Names and values in two columns, for what a document is about. */
export function facts(rows: readonly (readonly [name: string, value: string])[]): Content {
  const filled = rows.filter(([, value]) => value.trim() !== "");
  if (filled.length === 0) return say("");
  return {
    table: {
      widths: ["auto", "*"],
      body: filled.map(([name, value]) => [label(name), say(value)] as TableCell[]),
    },
    layout: {
      hLineWidth: () => 0,
      vLineWidth: () => 0,
      paddingLeft: () => 0,
      paddingRight: () => 10,
      paddingTop: () => 1,
      paddingBottom: () => 1,
    },
  };
}

/** Sums at the right: each a name and a figure; the strong one over an ink line. */
export function sums(rows: readonly { name: string; value: string; strong?: boolean }[]): Content {
  return {
    columns: [
      { width: "*", text: "" },
      { width: 260, ...(sumRows(rows) as object) },
    ],
    unbreakable: true,
    margin: [0, 8, 0, 0],
  } as Content;
}

/** The same as wide as where it stands. */
export function sumRows(rows: readonly { name: string; value: string; strong?: boolean }[]): Content {
  const body = rows.map((row): TableCell[] => [
    say(row.name, row.strong ? { bold: true, size: 11 } : {}) as TableCell,
    figure(row.value, row.strong ? { bold: true, size: 11 } : {}) as TableCell,
  ]);
  return {
    table: { widths: ["*", "auto"], body, dontBreakRows: true },
    layout: {
      hLineWidth: (at: number) => (rows[at]?.strong ? 1.2 : at === 0 ? 0 : 0.5),
      vLineWidth: () => 0,
      hLineColor: (at: number) => (rows[at]?.strong ? INK : HAIR),
      paddingLeft: () => 0,
      paddingRight: () => 0,
      paddingTop: () => 3,
      paddingBottom: () => 3,
    },
  } as Content;
}

/** Something to heed: a bar at the left. */
export function caution(text: string, color = OXIDE): Content {
  return {
    table: { widths: ["*"], body: [[say(text)]] },
    layout: {
      hLineWidth: () => 0,
      vLineWidth: (at: number) => (at === 0 ? 2.5 : 0),
      vLineColor: () => color,
      paddingLeft: () => 8,
      paddingTop: () => 2,
      paddingBottom: () => 2,
    },
    margin: [0, 3, 0, 3],
  };
}

/** The foot of each page: whose document it is, and which page of how many. */
export function foot(left: string, pageOf: (page: number, pages: number) => string) {
  return (page: number, pages: number): Content => ({
    columns: [
      label(left, { noWrap: true }),
      { ...(label(pageOf(page, pages), { align: "right" }) as object), width: 90 } as Content,
    ],
    margin: [45, 18, 45, 0],
  });
}
