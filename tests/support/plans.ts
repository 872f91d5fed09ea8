import Database from "better-sqlite3";
import { vi } from "vitest";
import { shopFile } from "@/lib/db/shop";

/** One step of a plan, as SQLite says it (EXPLAIN QUERY PLAN). */
interface Step {
  readonly parent: number;
  readonly detail: string;
}

/** The texts of all questions that connections prepare while `run` runs. */
export async function questionsOf(run: () => Promise<unknown>): Promise<string[]> {
  const texts = new Set<string>();
  const prepare = Database.prototype.prepare;
  const spy = vi.spyOn(Database.prototype, "prepare").mockImplementation(function (
    this: Database.Database,
    sql,
  ) {
    texts.add(sql);
    return prepare.call(this, sql);
  });
  try {
    await run();
  } finally {
    spy.mockRestore();
  }
  return [...texts].filter((sql) => /^\s*(SELECT|WITH)\b/i.test(sql));
}

/**
 * The tables that a question walks or sorts although they grow with the shop, by SQLite's plan for it; `small` are tables that do not
 * grow. Walking rows in the order that is asked for, up to a limit and without a condition, reads the first of them alone.
 */
export function walkedBy(database: string, sql: string, small: ReadonlySet<string>): string[] {
  const db = new Database(shopFile(database), { readonly: true });
  try {
    const values = sql.replace(/"[^"]*"|`[^`]*`|'[^']*'/g, "").match(/\?/g) ?? [];
    const plan = db.prepare<unknown[], Step>(`EXPLAIN QUERY PLAN ${sql}`).all(...values.map(() => null));
    return plan.flatMap((step) =>
      faultsOf(step, plan, sql).flatMap(({ table, fault }) =>
        small.has(table) ? [] : [`${fault} ${table}`],
      ),
    );
  } finally {
    db.close();
  }
}

function faultsOf(step: Step, plan: readonly Step[], sql: string): { table: string; fault: string }[] {
  const place = placeOf(sql, step.detail);
  if (place && step.detail.startsWith("SCAN "))
    return /^\s*(ORDER BY [^()]*)?LIMIT/.test(place.after) ? [] : [{ table: place.table, fault: "walks" }];
  if (!step.detail.startsWith("USE TEMP B-TREE FOR ORDER BY")) return [];
  return plan
    .filter((one) => one.parent === step.parent && !foundByKey(one.detail))
    .flatMap((one) => {
      const sorted = placeOf(sql, one.detail);
      return sorted ? [{ table: sorted.table, fault: "sorts" }] : [];
    });
}

/** Rows of one record, or of named ones: found by their own id or that of what they belong to, or between two ends of an index. */
const foundByKey = (detail: string) =>
  /^SEARCH .*(\(rowid=\?\)|\((\w+Id|id)=\?|[<>]\? AND \w+[<>]\?\))/.test(detail);

/** The table that a step of a plan walks or searches, and what follows it in the question; null where it is none of the shop's. */
function placeOf(sql: string, detail: string): { table: string; after: string } | null {
  const name = /^(?:SCAN|SEARCH) ([\w.]+)/.exec(detail)?.[1];
  if (!name || name === "CONSTANT" || detail.includes("VIRTUAL TABLE")) return null;
  const named = name.replace(/^main\./, "");
  const quoted = sql.replaceAll("`", '"').replaceAll('"main".', "");
  const found =
    new RegExp(`"(\\w+)" AS "?${named}"?(?=[\\s)])(.*)`, "s").exec(quoted) ??
    new RegExp(`FROM "(${named})"(.*)`, "s").exec(quoted);
  // The rows of a question within the question are walked as it is asked.
  if (!found && quoted.includes(`) AS "${named}"`)) return null;
  if (!found) throw new Error(`The question does not say what ${name} is: ${sql}`);
  return { table: found[1] as string, after: found[2] as string };
}
