import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { parseMoney } from "@/lib/domain/money/parse";
import { openKit } from "@/lib/domain/pricing/kit";
import { Refusal } from "@/lib/domain/refusal";
import { searchKey } from "@/lib/domain/searchKey";
import type { KitInput, KitRow } from "@/lib/schemas/kits";

/** Stores a kit: a new one, or in place of the one that was seen. Answers its id. */
export async function saveKit(
  shop: ShopHandle,
  input: KitInput & { key?: string | undefined },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "saved a kit", input, async () => {
      const { currency, locale } = await tx.settings.findUniqueOrThrow({
        where: { id: 1 },
        select: { currency: true, locale: true },
      });
      const lines = await linesIn(tx, input.parts);
      const priceMinor = priceOf(input, currency, locale);
      await demandFree(tx, input);
      const { code, name, fits } = input;
      const data = { code, name, fits, priceMinor, searchKey: searchKey(code, name, fits) };
      const id = input.id ?? (await tx.kit.create({ data, select: { id: true } })).id;
      if (input.id !== undefined)
        await demandOne(
          tx.kit.updateMany({
            where: { id, version: input.version ?? 0 },
            data: { ...data, version: { increment: 1 } },
          }),
          () =>
            new Refusal(
              "The kit was changed since you opened it.",
              "Open it again: what you typed is still here.",
              {},
              "conflict",
            ),
        );
      await tx.kitLine.deleteMany({ where: { kitId: id } });
      for (const [position, line] of lines.entries())
        await tx.kitLine.create({ data: { kitId: id, position, ...line }, select: { id: true } });
      await audit(tx, shop, input.id === undefined ? "added" : "changed", "kit", id, { code });
      return id;
    }),
  );
}

/** Puts a kit away, or brings it back. What was sold or quoted of it stays. */
export async function retireKit(
  shop: ShopHandle,
  input: { id: number; version: number; active: "yes" | "no" },
): Promise<void> {
  await shop.write(async (tx) => {
    await demandOne(
      tx.kit.updateMany({
        where: { id: input.id, version: input.version },
        data: { active: input.active === "yes", version: { increment: 1 } },
      }),
      () => new Refusal("The kit was changed since you opened it.", "Open it again.", {}, "conflict"),
    );
    await audit(tx, shop, input.active === "yes" ? "brought back" : "put away", "kit", input.id);
  });
}

/** The parts behind the codes; each named once and there. */
async function linesIn(
  tx: ShopTx,
  rows: readonly KitRow[],
): Promise<{ partId: number; quantityMilli: number }[]> {
  const parts = await tx.part.findMany({
    where: { code: { in: rows.map(({ code }) => code) }, active: true },
    select: { id: true, code: true },
    orderBy: { id: "asc" },
  });
  const fields: Record<string, string> = {};
  const lines = rows.flatMap(({ code, quantityMilli }, at) => {
    const part = parts.find((one) => one.code === code);
    if (!part) fields[`parts.${at}.code`] = `There is no part ${code}.`;
    if (rows.findIndex((row) => row.code === code) < at)
      fields[`parts.${at}.code`] = `${code} stands here twice: put it on one row.`;
    return part ? [{ partId: part.id, quantityMilli }] : [];
  });
  if (Object.keys(fields).length > 0)
    throw new Refusal("A part of the kit cannot be taken.", "Look at the marked rows.", fields);
  return lines;
}

/** The kit's price in minor units; refused where it could not be split over the parts to the cent. */
function priceOf(input: KitInput, currency: string, locale: string): number | null {
  if (input.price === "") return null;
  try {
    const minor = parseMoney(input.price, currency, locale);
    if (minor < 0) throw new Refusal("A price cannot be below zero.");
    openKit(
      input.parts.map((part) => ({ ...part, priceE4: null })),
      minor,
      1,
      currency,
    );
    return minor;
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    const said = `${cause.message} ${cause.remedy}`.trim();
    throw new Refusal("The kit's price cannot be kept.", "Look at the marked field.", { price: said });
  }
}

async function demandFree(tx: ShopTx, { id, code }: KitInput): Promise<void> {
  const kit = await tx.kit.findUnique({ where: { code }, select: { id: true, name: true } });
  const part = await tx.part.findUnique({ where: { code }, select: { name: true } });
  const other = kit && kit.id !== id ? kit.name : part?.name;
  if (other)
    throw new Refusal(`The code ${code} belongs to “${other}”.`, "Choose another code.", {
      code: "This code is taken: enter another.",
    });
}
