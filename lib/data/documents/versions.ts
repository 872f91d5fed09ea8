import { z } from "zod";

/** How JSON of one format is read: a schema for each version that was ever kept, which answers the present shape. */
export interface Versions<T> {
  readonly format: string;
  /** What it is, for whoever has to look: "a frozen quote". */
  readonly what: string;
  readonly readers: Readonly<Record<number, z.ZodType<T>>>;
}

/** JSON out of the database, checked by the schema of its version and brought to the present shape. Throws where it is damaged. */
export function readVersion<T>({ format, what, readers }: Versions<T>, json: unknown): T {
  const { format: given, version } = (json ?? {}) as { format?: unknown; version?: unknown };
  if (given !== format) throw new Error(`This is not ${what}.`);
  const reader = readers[Number(version)];
  if (!reader) throw new Error(`This is ${what} of version ${String(version)}, which cannot be read here.`);
  const read = reader.safeParse(json);
  if (!read.success) throw new Error(`This is ${what}, and damaged: ${z.prettifyError(read.error)}`);
  return read.data;
}
