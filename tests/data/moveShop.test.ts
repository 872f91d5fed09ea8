import { afterAll, describe, expect, it } from "vitest";
import { closeDirectory, directory } from "@/lib/db/directory";
import { postgresUrl } from "@/lib/db/folders";
import { moveShop, removeSource } from "@/lib/server/moving/moveShop";
import { directoryRowsOf } from "@/lib/server/moving/people";
import { workOn } from "@/lib/server/moving/places";
import { runCommand } from "../support/commands";
import { allRows } from "../support/moved";
import { twoWorkedShops } from "../support/workedShops";

const url = postgresUrl();
afterAll(closeDirectory);

/** As both kinds of database say it: PostgreSQL keeps the fields of JSON in an order of its own. */
function plain(rows: Awaited<ReturnType<typeof allRows>>): unknown {
  const value = (text: unknown): unknown => {
    if (typeof text !== "string" || !/^[[{]/.test(text)) return text;
    try {
      return JSON.parse(text);
    } catch {
      return text;
    }
  };
  return Object.fromEntries(
    Object.entries(rows).map(([table, all]) => [
      table,
      all.map((row) => Object.fromEntries(Object.entries(row).map(([name, one]) => [name, value(one)]))),
    ]),
  );
}

describe("moving a shop between the kinds of database", () => {
  it("is refused in words where it is not said from where and to where", async () => {
    const words = url ? ["some-shop"] : ["some-shop", "--to", "postgresql"];
    expect(await runCommand("lib/server/moveShop.ts", words)).toMatchObject({
      code: 1,
      text: expect.stringContaining(url ? "where it goes" : "Which PostgreSQL server?"),
    });
  });

  it.runIf(url)(
    "carries it to PostgreSQL and back, equal row for row, its people too, and leaves the other shop",
    async () => {
      await workOn("sqlite", url as string);
      const { a, b } = await twoWorkedShops();
      const [mine, others] = [plain(await allRows(a.database)), await allRows(b.database)];
      const people = await directoryRowsOf(a.slug);
      const move = { slug: a.slug, url: url as string };

      const moved = await moveShop({ ...move, to: "postgresql" }, a.now);
      expect(moved).toMatchObject({ pictures: 4 });
      const there = await directoryRowsOf(a.slug);
      expect(there?.memberships.map(({ role, person }) => ({ role, person }))).toEqual(
        people?.memberships.map(({ role, person }) => ({ role, person })),
      );
      expect(there).toMatchObject({ id: a.shopId, closedAt: null, name: a.name });
      expect(plain(await allRows(there?.database ?? ""))).toEqual(mine);
      await expect(moveShop({ ...move, to: "postgresql" }, a.now)).rejects.toThrow(/closed here/);
      await expect(removeSource({ ...move, to: "sqlite" }, a.now)).rejects.toThrow(/was not moved/);

      await workOn("sqlite", url as string);
      expect(await allRows(b.database)).toEqual(others);
      expect(plain(await allRows(a.database))).toEqual(mine);
      expect((await directoryRowsOf(a.slug))?.closedAt).toEqual(a.now);
      // A shop of that name is in the way of the one that comes back: nothing of it is lost where it is.
      await expect(moveShop({ ...move, to: "sqlite" }, a.now)).rejects.toThrow(/already/);
      await workOn("sqlite", url as string);
      await directory().write((tx) =>
        tx.shop.update({ where: { id: a.shopId }, data: { id: "former", slug: "former" } }),
      );

      await moveShop({ ...move, to: "sqlite" }, a.now);
      const back = await directoryRowsOf(a.slug);
      expect(plain(await allRows(back?.database ?? ""))).toEqual(mine);
      await removeSource({ ...move, to: "sqlite" }, a.now);
      expect(await directoryRowsOf(a.slug)).toBeNull();
      await workOn("sqlite", url as string);
      expect(plain(await allRows(back?.database ?? ""))).toEqual(mine);
      expect(await allRows(b.database)).toEqual(others);
    },
  );
});
