import type { Readable } from "node:stream";
import type { Rows } from "@/lib/db/snapshot";
import { ended, startProgram } from "./programs";

/**
 * Writes one schema, as an exported snapshot sees it, into one compressed file. A schema at a time: pg_dump locks every table that it
 * copies until it ends, and a stock server has locks for the tables of about fifty shops.
 */
export async function dumpSchema(url: string, schema: string, snapshot: string, file: string): Promise<void> {
  const wanted = ["--format=custom", "--no-owner", "--no-privileges", `--schema=${schema}`];
  const child = startProgram("pg_dump", [...wanted, `--snapshot=${snapshot}`, `--file=${file}`], url);
  child.stdout?.resume();
  await ended(child, "pg_dump");
}

const LINE = 0x0a;
const END_OF_ROWS = Buffer.from("\\.");

/** A line of the script that a file stands for; `row` for one of a table's rows, which are left as the bytes they are. */
export interface ScriptLine {
  readonly bytes: Buffer;
  readonly row: boolean;
  /** The table whose rows begin after this line, or whose row this is. */
  readonly table: string | null;
}

/** The script that a file stands for, line by line: what pg_restore cannot read through is no copy. */
export async function* scriptOf(file: string, ...args: string[]): AsyncGenerator<ScriptLine> {
  const child = startProgram("pg_restore", ["--file=-", ...args, file]);
  const done = ended(child, "pg_restore");
  // Awaited below, once all was read; unheard it would end the process.
  done.catch(() => undefined);
  let table: string | null = null;
  for await (const bytes of linesOf(child.stdout as Readable)) {
    const row = table !== null;
    if (table === null) table = copiedTable(bytes);
    else if (bytes.equals(END_OF_ROWS)) table = null;
    yield { bytes, row: row && table !== null, table };
  }
  await done;
}

/** The rows that a file holds, counted by reading it through. */
export async function rowsIn(file: string): Promise<Rows> {
  const rows: Record<string, number> = {};
  for await (const { row, table } of scriptOf(file, "--data-only"))
    if (table !== null) rows[table] = (rows[table] ?? 0) + (row ? 1 : 0);
  return rows;
}

/** Cut at line feeds alone: a row may hold any other sign that is said to end a line. */
async function* linesOf(stream: Readable): AsyncGenerator<Buffer> {
  let rest: Buffer[] = [];
  for await (const chunk of stream as AsyncIterable<Buffer>) {
    let from = 0;
    for (let at = chunk.indexOf(LINE); at !== -1; at = chunk.indexOf(LINE, from)) {
      yield Buffer.concat([...rest, chunk.subarray(from, at)]);
      rest = [];
      from = at + 1;
    }
    if (from < chunk.length) rest.push(chunk.subarray(from));
  }
  if (rest.length) yield Buffer.concat(rest);
}

/** The table of a line that begins its rows; null for any other line. */
function copiedTable(line: Buffer): string | null {
  if (!line.subarray(0, 5).equals(Buffer.from("COPY "))) return null;
  const [, quoted, plain] =
    /^COPY [^.]+\.(?:"((?:[^"]|"")+)"|(\w+)) \(.*\) FROM stdin;$/.exec(line.toString()) ?? [];
  return quoted?.replaceAll('""', '"') ?? plain ?? null;
}
