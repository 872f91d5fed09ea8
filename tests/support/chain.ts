import { sendQuote } from "@/lib/data/quotes/send";
import { writeWork } from "@/lib/data/quotes/works";
import { createQuote } from "@/lib/data/quotes/write";
import { recordMove } from "@/lib/data/stock/moves";
import type { ShopHandle } from "@/lib/db/shop";
import { type WrittenWorkInput, WrittenWorkSchema } from "@/lib/schemas/works";
import { ORIGIN, type SentQuote } from "./quotes";

/** A written work as its form sends it. */
export const workForm = (fields: Record<string, unknown>): WrittenWorkInput =>
  WrittenWorkSchema.parse(fields);

/** A chain at a cost of 60.00 and so many of them in stock. */
export async function stockChain(shop: ShopHandle, count = 1): Promise<number> {
  const { id } = await shop.write((tx) =>
    tx.part.create({
      data: {
        code: "CH-520",
        name: "Chain 520, 110 links",
        kind: "other",
        costE4: 600_000,
        supplier: "Own shelf",
        createdAt: shop.now,
        searchKey: "ch-520",
      },
      select: { id: true },
    }),
  );
  if (count > 0)
    await recordMove(shop, { partId: id, kind: "opening", quantityMilli: count * 1000, unitCostE4: 600_000 });
  return id;
}

/** "Chain renewed": 48 minutes and a chain. */
export const chainWork = (id: number, version: number) =>
  workForm({
    id: String(id),
    version: String(version),
    name: "Chain renewed",
    plain: "A new chain, riveted, with its slack set.",
    steps: { 0: { minutes: "48", grade: "workshop", name: "" } },
    parts: { 0: { kind: "part", what: "CH-520", quantity: "1" } },
    cautions: "Keep fingers off a moving chain.",
  });

/** A quote for a chain, without any package, sent. */
export async function sentChain(shop: ShopHandle, bikeId: number): Promise<SentQuote> {
  const id = await createQuote(shop, { bikeId });
  await writeWork(shop, chainWork(id, 1));
  const sent = await sendQuote(shop, { id, version: 2, origin: ORIGIN });
  const { hash } = await shop.read.quoteRevision.findUniqueOrThrow({ where: { id: sent.revisionId } });
  return { id, revisionId: sent.revisionId, hash: hash ?? "", token: sent.link?.split("/").at(-1) ?? "" };
}
