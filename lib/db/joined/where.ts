import { type Asking, column, leave, type Words, words } from "./asking";
import type { FieldType, Relation, Table } from "./tables";

/** The rows of a table that a `where` of Prisma's means, as an SQL condition; empty where it means all of them. */
export function condition(ask: Asking, table: Table, alias: string, where: unknown): string {
  if (where === undefined) return "";
  return all(
    Object.entries(words(where)).flatMap(([name, wanted]) =>
      wanted === undefined ? [] : [one(ask, table, alias, name, wanted)],
    ),
  );
}

const all = (conditions: readonly string[]) => conditions.filter((text) => text !== "").join(" AND ");

function one(ask: Asking, table: Table, alias: string, name: string, wanted: unknown): string {
  if (name === "AND") return all(listed(wanted).map((where) => condition(ask, table, alias, where)));
  if (name === "OR") return any(listed(wanted).map((where) => condition(ask, table, alias, where)));
  if (name === "NOT") {
    const none = listed(wanted).map((where) => condition(ask, table, alias, where));
    return all(none.map((text) => (text === "" ? leave() : `NOT (${text})`)));
  }
  const relation = table.relations.get(name);
  if (relation) return ofRelation(ask, table, alias, relation, wanted);
  const key = table.keys.get(name);
  if (key) return condition(ask, table, alias, keyed(words(wanted), key));
  return ofField(ask, table, alias, name, wanted);
}

const listed = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : [value]);

/** An empty alternative would mean all rows, and none at all none of them. */
function any(conditions: readonly string[]): string {
  if (conditions.includes("")) return leave();
  return conditions.length === 0 ? "1 = 0" : `(${conditions.map((text) => `(${text})`).join(" OR ")})`;
}

const keyed = (given: Words, key: readonly string[]): Words =>
  Object.fromEntries(key.map((field) => [field, given[field] ?? leave()]));

function ofRelation(ask: Asking, table: Table, alias: string, relation: Relation, wanted: unknown): string {
  if (!relation.list) return ofOne(ask, table, alias, relation, wanted);
  const given = words(wanted);
  return all(
    Object.entries(given).map(([how, where]) => {
      if (where === undefined) return "";
      if (how === "some") return exists(ask, table, alias, relation, where);
      return how === "none" ? `NOT ${exists(ask, table, alias, relation, where)}` : leave();
    }),
  );
}

function ofOne(ask: Asking, table: Table, alias: string, relation: Relation, wanted: unknown): string {
  if (wanted === null) return `NOT ${exists(ask, table, alias, relation, undefined)}`;
  const { is, isNot, ...others } = words(wanted);
  if (is === undefined && isNot === undefined) return exists(ask, table, alias, relation, others);
  if (Object.keys(others).length > 0 || (is !== undefined && isNot !== undefined)) return leave();
  if (is !== undefined) return ofOne(ask, table, alias, relation, is);
  if (isNot === null) return exists(ask, table, alias, relation, undefined);
  return `NOT ${exists(ask, table, alias, relation, isNot)}`;
}

function exists(ask: Asking, table: Table, alias: string, relation: Relation, where: unknown): string {
  const other = ask.table(relation.table);
  const as = ask.alias();
  const linked = `${column(other, as, relation.to)} = ${column(table, alias, relation.from)}`;
  return `EXISTS (SELECT 1 ${ask.from(other, as)} WHERE ${all([linked, condition(ask, other, as, where)])})`;
}

const SIGNS: Readonly<Record<string, string>> = { lt: "<", lte: "<=", gt: ">", gte: ">=", equals: "=" };

function ofField(ask: Asking, table: Table, alias: string, name: string, wanted: unknown): string {
  const field = table.fields.get(name) ?? leave();
  if (field.type === "Json") return leave();
  const left = column(table, alias, name);
  if (wanted === null) return `${left} IS NULL`;
  const is = (value: unknown): value is Value => isOf(field.type, value);
  if (is(wanted)) return `${left} = ${ask.value(wanted)}`;
  return all(
    Object.entries(words(wanted)).map(([how, value]) => {
      if (value === undefined) return "";
      if (how === "in" || how === "notIn") return among(ask, left, how, value, is);
      if (how === "not" && value === null) return `${left} IS NOT NULL`;
      if (how === "not") return is(value) ? `${left} <> ${ask.value(value)}` : leave();
      const sign = SIGNS[how] ?? leave();
      if (is(value)) return `${left} ${sign} ${ask.value(value)}`;
      if (value === null && how === "equals") return `${left} IS NULL`;
      return `${left} ${sign} ${referred(table, alias, value)}`;
    }),
  );
}

/** Prisma's client reads longer lists in pieces. */
const LONGEST = 900;

function among(ask: Asking, left: string, how: "in" | "notIn", value: unknown, is: Is): string {
  if (!Array.isArray(value) || value.length > LONGEST || !value.every(is)) return leave();
  if (value.length === 0) return how === "in" ? "1 = 0" : "1 = 1";
  return `${left} ${how === "in" ? "IN" : "NOT IN"} (${value.map((each) => ask.value(each)).join(", ")})`;
}

type Value = string | number | boolean | Date;
type Is = (value: unknown) => value is Value;

/** A value that the client would take for a field; of any other it says why it refuses it. */
function isOf(type: FieldType, value: unknown): boolean {
  if (type === "String") return typeof value === "string";
  if (type === "Int") return Number.isInteger(value) && Math.abs(value as number) < 2 ** 31;
  if (type === "Float") return Number.isFinite(value);
  if (type === "Boolean") return typeof value === "boolean";
  return value instanceof Date && !Number.isNaN(value.getTime());
}

/** Another column of the same row: `read.part.fields.pointMilli`. */
function referred(table: Table, alias: string, value: unknown): string {
  const field = value as { modelName?: unknown; name?: unknown } | null;
  if (typeof field !== "object" || field?.modelName !== table.name) return leave();
  return column(table, alias, String(field.name));
}
