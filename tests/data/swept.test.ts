import { beforeAll, describe, expect, it } from "vitest";
import { endWorkOfIn } from "@/lib/data/jobs/time/leave";
import { changeRole, removeMember } from "@/lib/data/people/members";
import { hasStaleStaff, settleStaff } from "@/lib/data/people/staff";
import { hasOldKeys, sweepKeys } from "@/lib/data/shop/sweepKeys";
import { directory } from "@/lib/db/directory";
import { idsMatching } from "@/lib/db/search";
import { mergeSearchIn } from "@/lib/db/searchMerge";
import { putInDirectory } from "../support/directoryShops";
import { as, type TwoShops, twoShops } from "../support/shops";

let shops: TwoShops;
beforeAll(async () => {
  shops = await twoShops();
  await putInDirectory([shops.a, shops.b]);
});

const inDays = (days: number) => as(shops.a, { now: new Date(shops.a.now.getTime() + days * 86_400_000) });

it("keys of requests are forgotten after thirty days, and those of another shop are not touched", async () => {
  const { a, b } = shops;
  for (const shop of [a, b])
    await shop.write((tx) =>
      tx.once.createMany({
        data: Array.from({ length: 130 }, (_, n) => ({
          key: `k${n}`,
          at: new Date(shop.now.getTime() + (n < 120 ? 0 : 20 * 86_400_000)),
          result: "1",
        })),
      }),
    );
  expect(await hasOldKeys(inDays(29))).toBe(false);
  expect(await hasOldKeys(inDays(31))).toBe(true);
  expect(await sweepKeys(inDays(31))).toBe(120);
  expect([await a.read.once.count(), await b.read.once.count()]).toEqual([10, 130]);
  expect(await hasOldKeys(inDays(31))).toBe(false);
});

describe("people of a shop, where a server was stopped between the directory's write and the shop's", () => {
  it("are set right by the next round: the one who was taken out, and the one with another role", async () => {
    const { a, b } = shops;
    const at = a.now;
    for (const shop of [a, b]) {
      await directory().write((tx) =>
        tx.membership.create({
          data: {
            person: { connectOrCreate: owner(shop.by.personId, at) },
            shop: { connect: { slug: shop.slug } },
            role: "owner",
            createdAt: at,
          },
        }),
      );
      await directory().write(async (tx) => {
        for (const id of [`gone-${shop.slug}`, `moved-${shop.slug}`])
          await tx.membership.create({
            data: {
              person: { connectOrCreate: owner(id, at) },
              shop: { connect: { slug: shop.slug } },
              role: "tuner",
              createdAt: at,
            },
          });
      });
      await shop.write(async (tx) => {
        for (const personId of [`gone-${shop.slug}`, `moved-${shop.slug}`])
          await tx.staff.create({ data: { personId, name: personId, role: "tuner", hours: {} } });
      });
      expect(await hasStaleStaff(shop)).toBe(false);
    }
    // The shop's database does not answer: the directory's write is done, the shop's is not.
    const broken = { ...a, write: () => Promise.reject(new Error("stopped")) };
    await expect(removeMember(broken, `gone-${a.slug}`, endWorkOfIn)).rejects.toThrow("stopped");
    await expect(
      changeRole(broken, { personId: `moved-${a.slug}`, role: "desk" }, endWorkOfIn),
    ).rejects.toThrow("stopped");
    expect(await hasStaleStaff(a)).toBe(true);
    expect(await settleStaff(a, endWorkOfIn)).toBe(2);
    const row = (personId: string) => a.read.staff.findUniqueOrThrow({ where: { personId } });
    expect(await row(`gone-${a.slug}`)).toMatchObject({ active: false, role: "tuner" });
    expect(await row(`moved-${a.slug}`)).toMatchObject({ active: true, role: "desk" });
    expect(await row(a.by.personId)).toMatchObject({ active: true, role: "owner" });
    expect(await hasStaleStaff(a)).toBe(false);
    expect(await hasStaleStaff(b)).toBe(false);
  });
});

const owner = (id: string, createdAt: Date) => ({
  where: { id },
  create: { id, email: `${id}@example.com`, name: id, passwordHash: "x", createdAt },
});

it("merging what a search finds by changes nothing that it finds", async () => {
  const { a, b } = shops;
  const name = (n: number, word: string) => ({
    name: `Customer ${n}`,
    searchKey: `customer ${n} ${word}`,
    createdAt: a.now,
  });
  for (const shop of [a, b])
    await shop.write((tx) =>
      tx.customer.createMany({ data: Array.from({ length: 300 }, (_, n) => name(n, "samphire")) }),
    );
  await a.write(async (tx) => {
    for (const { id } of await tx.customer.findMany({
      select: { id: true },
      orderBy: { id: "asc" },
      take: 250,
    }))
      await tx.customer.update({ where: { id }, data: { searchKey: `customer ${id} glasswort` } });
  });
  const found = async (shop: typeof a, text: string) =>
    (await idsMatching(shop, [{ table: "Customer", most: 500 }], [{ text }])).length;
  const all = async () => [
    await found(a, "samphire"),
    await found(a, "glasswort"),
    await found(b, "samphire"),
  ];
  expect(await all()).toEqual([50, 250, 300]);
  await a.write((tx) => mergeSearchIn(tx, ["Customer", "Part"]));
  expect(await all()).toEqual([50, 250, 300]);
});
