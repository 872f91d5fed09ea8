import type { Table } from "./tables";

/** Words of a question that are not joined: it is left to Prisma's client. */
export class LeftToPrisma extends Error {}

export const leave = (): never => {
  throw new LeftToPrisma();
};

/** One statement in the making: which database it is for, its values in the order in which they stand, names for its tables. */
export class Asking {
  readonly values: unknown[] = [];
  #named = 0;

  constructor(
    readonly tables: ReadonlyMap<string, Table>,
    /** The schema on PostgreSQL, undefined on SQLite. */
    readonly schema: string | undefined,
  ) {}

  value(value: string | number | boolean | Date): string {
    this.values.push(value instanceof Date ? written(value) : value);
    return this.schema === undefined ? "?" : `$${this.values.length}`;
  }

  alias(): string {
    this.#named += 1;
    return `t${this.#named}`;
  }

  table(name: string): Table {
    return this.tables.get(name) ?? leave();
  }

  from(table: Table, alias: string): string {
    return `FROM ${this.schema === undefined ? "" : `"${this.schema}".`}"${table.name}" AS ${alias}`;
  }
}

/** As Prisma's adapter for SQLite writes an instant; PostgreSQL reads the same text. */
export const written = (at: Date) => at.toISOString().replace("Z", "+00:00");

export function column(table: Table, alias: string, name: string): string {
  return `${alias}."${(table.fields.get(name) ?? leave()).column}"`;
}

/** SQL expressions as one JSON array. */
export function arrayOf(ask: Asking, values: readonly string[]): string {
  return `${ask.schema === undefined ? "json_array" : "json_build_array"}(${values.join(", ")})`;
}

export type Words = Readonly<Record<string, unknown>>;

/** A plain object of words; anything else is not understood here. */
export function words(value: unknown): Words {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return leave();
  if (Object.getPrototypeOf(value) !== Object.prototype) return leave();
  return value as Words;
}
