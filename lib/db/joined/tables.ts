import { type DatabaseKind, schemaFiles } from "../schemaFiles";

export type FieldType = "String" | "Int" | "Float" | "Boolean" | "DateTime" | "Json";

export interface Field {
  readonly column: string;
  readonly type: FieldType;
}

/** The other table's rows whose column `to` holds what `from` holds here. */
export interface Relation {
  readonly table: string;
  readonly list: boolean;
  /** There may be none. */
  readonly optional: boolean;
  readonly from: string;
  readonly to: string;
}

export interface Table {
  readonly name: string;
  readonly fields: ReadonlyMap<string, Field>;
  readonly relations: ReadonlyMap<string, Relation>;
  /** Fields that are unique together, by the name under which they are asked for. */
  readonly keys: ReadonlyMap<string, readonly string[]>;
}

interface Line {
  readonly name: string;
  readonly type: string;
  readonly list: boolean;
  readonly optional: boolean;
  readonly rest: string;
}

const SCALARS = new Set(["String", "Int", "Float", "Boolean", "DateTime", "Json"]);
const known = new Map<DatabaseKind, ReadonlyMap<string, Table>>();

/** Tables of one kind of database by their names, as the Prisma schema tells of them. */
export function tablesOf(kind: DatabaseKind): ReadonlyMap<string, Table> {
  const found = known.get(kind);
  if (found) return found;
  const text = schemaFiles(kind, "sqlite")
    .map(([, part]) => part)
    .join("\n");
  const made = tablesIn(text);
  known.set(kind, made);
  return made;
}

function tablesIn(text: string): Map<string, Table> {
  const models = new Map(blocks(text, "model").map(([name, body]) => [name, body.split("\n")]));
  const enums = new Set(blocks(text, "enum").map(([name]) => name));
  const linesOf = (name: string) => (models.get(name) ?? []).flatMap(lineOf);
  return new Map(
    [...models].map(([name, body]) => {
      const lines = linesOf(name);
      const fields = new Map(
        lines.flatMap((line): [string, Field][] => {
          if (models.has(line.type)) return [];
          const type = enums.has(line.type) ? "String" : line.type;
          if (line.list || !SCALARS.has(type)) throw new Error(`${name}.${line.name} cannot be read joined.`);
          const column = /@map\("(\w+)"\)/.exec(line.rest)?.[1] ?? line.name;
          return [[line.name, { column, type: type as FieldType }]];
        }),
      );
      const relations = new Map(
        lines
          .filter((line) => models.has(line.type))
          .map((line) => [line.name, relationOf(name, line, linesOf(line.type))]),
      );
      return [name, { name, fields, relations, keys: keysIn(body) }];
    }),
  );
}

function blocks(text: string, word: string): [name: string, body: string][] {
  return [...text.matchAll(new RegExp(`^${word} (\\w+) \\{\\n([\\s\\S]*?)^\\}`, "gm"))].map((found) => [
    found[1] as string,
    found[2] as string,
  ]);
}

function lineOf(text: string): Line[] {
  const found = /^\s+(\w+)\s+(\w+)(\[\]|\?)?(.*)$/.exec(text);
  if (!found) return [];
  const [, name = "", type = "", more, rest = ""] = found;
  return [{ name, type, list: more === "[]", optional: more === "?", rest }];
}

function relationOf(table: string, line: Line, others: readonly Line[]): Relation {
  const { type, list, optional } = line;
  const own = linked(line);
  if (own) return { table: type, list: false, optional, ...own };
  const named = nameOf(line);
  const back = others.find((one) => one.type === table && nameOf(one) === named && linked(one));
  const there = back && linked(back);
  if (!there) throw new Error(`The schema does not say what ${table}.${line.name} is linked by.`);
  return { table: type, list, optional, from: there.to, to: there.from };
}

const nameOf = (line: Line) => /@relation\("(\w+)"/.exec(line.rest)?.[1];

function linked(line: Line): { from: string; to: string } | undefined {
  const found = /fields: \[(\w+)\], references: \[(\w+)\]/.exec(line.rest);
  return found ? { from: found[1] as string, to: found[2] as string } : undefined;
}

function keysIn(body: readonly string[]): Map<string, readonly string[]> {
  return new Map(
    body.flatMap((line): [string, string[]][] => {
      const together = /^\s+@@(?:id|unique)\(\[([\w, ]+)\]/.exec(line)?.[1]?.split(/, */);
      return together ? [[together.join("_"), together]] : [];
    }),
  );
}
