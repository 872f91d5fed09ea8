import { csvParts } from "./csv";

type Parts = Readonly<Record<string, readonly Readonly<Record<string, unknown>>[]>>;

/** A person's data as rows of part, number of the record, field and value: one file for records of every kind. */
export function personalCsv(parts: Parts): AsyncGenerator<string, void, undefined> {
  return csvParts(["part", "record", "field", "value"], linesOf(parts), (line) => line);
}

function* linesOf(parts: Parts): Generator<readonly (string | number)[]> {
  for (const [part, rows] of Object.entries(parts))
    for (const [at, row] of rows.entries())
      for (const [field, value] of Object.entries(row))
        if (value !== null && value !== "") yield [part, at + 1, field, written(value)];
}

function written(value: unknown): string | number {
  if (typeof value === "number" || typeof value === "string") return value;
  return value instanceof Date ? value.toISOString() : JSON.stringify(value);
}

/** The same as one JSON text, a record at a time. */
export async function* personalJson(
  head: Readonly<Record<string, unknown>>,
  parts: Parts,
): AsyncGenerator<string, void, undefined> {
  yield `${JSON.stringify(head, null, 2).slice(0, -2)},\n  "parts": {`;
  for (const [n, [part, rows]] of Object.entries(parts).entries()) {
    yield `${n ? "," : ""}\n    ${JSON.stringify(part)}: [`;
    for (const [at, row] of rows.entries()) yield `${at ? "," : ""}\n      ${JSON.stringify(row)}`;
    yield rows.length ? "\n    ]" : "]";
  }
  yield "\n  }\n}\n";
}
