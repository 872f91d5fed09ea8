import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { Refusal } from "@/lib/domain/refusal";
import type { CreatePackage, PublishRevision, RetirePackage } from "@/lib/schemas/packages";
import { checkedOf, revisionOf } from "./checked";
import { storedRecipe } from "./stored";

/** A new package without a revision; answers its id. */
export async function createPackage(
  shop: ShopHandle,
  input: CreatePackage & { key?: string | undefined },
): Promise<number> {
  const { key, ...data } = input;
  return shop.write((tx) =>
    once(tx, shop, "added a package", input, async () => {
      const taken = await tx.package.findUnique({ where: { code: data.code }, select: { name: true } });
      if (taken)
        throw new Refusal(`The code ${data.code} belongs to “${taken.name}”.`, "Choose another code.", {
          code: "This code is taken.",
        });
      const { id } = await tx.package.create({ data, select: { id: true } });
      await audit(tx, shop, "created", "package", id, { code: data.code });
      return id;
    }),
  );
}

/**
 * Stores a recipe as the package's draft revision: the draft that stands is written over, else the next number is
 * begun. A draft may have problems; it cannot be published with them. With `seen` ("revision.version" of the newest when the
 * text was opened) it refuses where someone wrote since, unless `over` names what stands there now.
 */
export async function addPackageRevision(
  shop: ShopHandle,
  input: {
    packageId: number;
    recipe: Recipe;
    seen?: string | undefined;
    over?: Readonly<Record<string, string>> | undefined;
    key?: string | undefined;
  },
): Promise<{ id: number; number: number }> {
  const id = await shop.write((tx) =>
    once(tx, shop, "added a revision", input, async () => {
      const row = await tx.package.findUnique({
        where: { id: input.packageId },
        select: {
          id: true,
          revisions: {
            select: { id: true, number: true, state: true, version: true },
            orderBy: { number: "desc" },
            take: 1,
          },
        },
      });
      if (!row) throw new Refusal("There is no such package.", "Choose one from the list.", {}, "missing");
      const newest = row.revisions[0];
      await demandSeen(tx, input, newest);
      const written = revisionOf(input.recipe);
      const number = newest?.state === "draft" ? newest.number : (newest?.number ?? 0) + 1;
      const saved =
        newest?.state === "draft"
          ? await tx.packageRevision.update({
              where: { id: newest.id, state: "draft" },
              data: { ...written, version: { increment: 1 } },
              select: { id: true },
            })
          : await tx.packageRevision.create({
              data: { packageId: row.id, number, state: "draft", ...written, createdAt: shop.now },
              select: { id: true },
            });
      await audit(tx, shop, "wrote revision", "package", row.id, { number });
      return saved.id;
    }),
  );
  const { number } = await shop.read.packageRevision.findUniqueOrThrow({
    where: { id },
    select: { number: true },
  });
  return { id, number };
}

/** Where a text was drawn from: the newest revision and how often it was saved. */
export const seenOf = (newest: { number: number; version: number } | null | undefined): string =>
  newest ? `${newest.number}-${newest.version}` : "0-0";

async function demandSeen(
  tx: ShopTx,
  input: {
    packageId: number;
    seen?: string | undefined;
    over?: Readonly<Record<string, string>> | undefined;
  },
  newest: { number: number; version: number } | undefined,
): Promise<void> {
  const now = seenOf(newest);
  if (input.seen === undefined || input.seen === now || Object.hasOwn(input.over ?? {}, now)) return;
  const last = await tx.auditEntry.findFirst({
    where: { noun: "package", nounId: input.packageId },
    select: { personName: true },
    orderBy: { id: "desc" },
  });
  throw new Refusal(
    `${last?.personName ?? "Someone"} changed this draft while you were writing. Nothing of yours was saved or lost.`,
    "Look at it in another tab; to save yours all the same, tick “Save mine over these changes”.",
    { [`over.${now}`]: "Tick this to save yours over what is there now." },
    "conflict",
  );
}

const MOST_SAID = 10;

/** Publishes a draft that passes every authoring check. From then on it never changes. */
export async function publishRevision(
  shop: ShopHandle,
  input: PublishRevision,
): Promise<{ packageId: number; number: number }> {
  return shop.write(async (tx) => {
    const row = await tx.packageRevision.findUnique({
      where: { id: input.revisionId },
      select: { packageId: true, number: true, state: true, version: true, recipe: true },
    });
    if (!row) throw new Refusal("There is no such revision.", "Choose one from the package.", {}, "missing");
    if (row.state === "published") return { packageId: row.packageId, number: row.number };
    const recipe = storedRecipe(row.recipe);
    const written = revisionOf(recipe);
    const problems = checkedOf(written, recipe)?.problems ?? [];
    const said = problems.slice(0, MOST_SAID).map((p) => p.message);
    if (problems.length > said.length) said.push(`And ${problems.length - said.length} more.`);
    if (problems.length > 0)
      throw new Refusal(
        `Revision ${row.number} cannot be published: ${said.join(" ")}`,
        "Correct these in the recipe and add it again.",
      );
    await demandOne(
      tx.packageRevision.updateMany({
        where: { id: input.revisionId, state: "draft", version: input.version },
        data: {
          state: "published",
          publishedAt: shop.now,
          checked: written.checked,
          checkedBy: written.checkedBy,
          version: { increment: 1 },
        },
      }),
      () =>
        new Refusal(
          `Revision ${row.number} was written over since you opened it.`,
          "Look at it as it stands now, then publish.",
          {},
          "conflict",
        ),
    );
    await audit(tx, shop, "published", "package", row.packageId, { number: row.number });
    return { packageId: row.packageId, number: row.number };
  });
}

/** Takes a package off the list for new quotes, or puts it back. Quotes that used it keep it. */
export async function retirePackage(shop: ShopHandle, input: RetirePackage): Promise<void> {
  const active = input.active === "yes";
  await shop.write(async (tx) => {
    await demandOne(
      tx.package.updateMany({
        where: { id: input.packageId, version: input.version },
        data: { active, version: { increment: 1 } },
      }),
      () => new Refusal("The package was changed since you opened it.", "Open it again.", {}, "conflict"),
    );
    await audit(tx, shop, active ? "put back" : "retired", "package", input.packageId);
  });
}
