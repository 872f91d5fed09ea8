import { execFileSync } from "node:child_process";
import { afterEach, describe, expect, it } from "vitest";
import { postgresUrl } from "@/lib/db/folders";
import { applyMigrations } from "@/lib/db/migrations";
import { inPostgres } from "@/lib/db/postgres";
import { createSchema, dropSchema } from "@/lib/db/shopSchema";
import { serverPrograms } from "../support/postgres";

const url = postgresUrl() ?? "";

describe.runIf(url)("a shop's schema on PostgreSQL (npm run test:postgres)", () => {
  const sql = (text: string) => inPostgres(url, (client) => client.query(text));
  const schemas = async () => {
    const { rows } = await sql(
      "SELECT nspname AS name FROM pg_namespace WHERE nspname LIKE 'template\\_%' ORDER BY 1",
    );
    return rows.map(({ name }) => name as string);
  };
  afterEach(async () => {
    for (const schema of ["shop_a", "shop_b"]) await dropSchema(url, schema);
  });

  /** All that pg_dump writes of a schema, without its name. */
  const dumped = (schema: string) =>
    execFileSync(`${serverPrograms()}/pg_dump`, ["--no-comments", "-n", schema, url], { encoding: "utf8" })
      .replaceAll(new RegExp(`\\b${schema}\\b`, "g"), "shop")
      .split("\n")
      // What differs with each dump and each run of the migrations.
      .filter((line) => !/^\\(un)?restrict|\t\d{4}-\d\d-\d\d \d\d:/.test(line));

  it("made like the template equals one that was migrated, as pg_dump writes it", async () => {
    await createSchema(url, "shop_a");
    await sql("CREATE SCHEMA shop_b");
    const names = await applyMigrations("shop", { provider: "postgresql", url, schema: "shop_b" });
    const text = dumped("shop_b");
    expect(text.length).toBeGreaterThan(5_000);
    expect(dumped("shop_a")).toEqual(text);
    const { rows } = await sql(`SELECT migration_name AS name FROM shop_a."_prisma_migrations" ORDER BY 1`);
    expect(rows.map(({ name }) => name)).toEqual(names);
    expect(await applyMigrations("shop", { provider: "postgresql", url, schema: "shop_a" })).toEqual([]);
  });

  it("is made anew after a template that was cut off half-way, and other versions' templates go", async () => {
    const [now] = await schemas();
    await sql(`ALTER SCHEMA "${now}" RENAME TO "template_older_1"; CREATE SCHEMA "template_in_the_making";
      CREATE TABLE "template_in_the_making"."Half" ("id" serial)`);
    // An address that was not asked before is as good as a process of its own.
    const one = (name: string) => `${url}?application_name=${name}`;
    await Promise.all([createSchema(one("a"), "shop_a"), createSchema(one("b"), "shop_b")]);
    expect(await schemas()).toEqual([now]);
    expect(dumped("shop_a")).toEqual(dumped("shop_b"));
  });

  it("that was half dropped is dropped whole the next time, and one that is not there is no fault", async () => {
    await createSchema(url, "shop_a");
    await sql(`DROP TABLE shop_a."Invoice", shop_a."Part" CASCADE`);
    await dropSchema(url, "shop_a");
    await dropSchema(url, "shop_a");
    expect((await sql("SELECT 1 FROM pg_namespace WHERE nspname = 'shop_a'")).rows).toEqual([]);
  });
});
