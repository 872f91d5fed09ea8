import type { Row, Table, Value } from "@/lib/db/rows/rows";

/** RFC 4180, each value as it is kept. Empty text is quoted, so that it is told from no value. */
export function csvHead({ columns }: Table): string {
  return `${columns.map(({ name }) => field(name)).join(",")}\r\n`;
}

export function csvLine({ columns }: Table, row: Row): string {
  return `${columns.map(({ name }) => field(row[name] ?? null)).join(",")}\r\n`;
}

function field(value: Value): string {
  if (value === null) return "";
  const text = String(value);
  return text === "" || /[",\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
