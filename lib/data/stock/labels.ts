import type { ShopHandle } from "@/lib/db/shop";
import { binNamesIn } from "./lying";

export interface LabelAsked {
  ids: readonly number[];
  family: string;
  bin: string;
}

/** The parts to print labels for: those asked for by id, else a family, else a bin. By bin and code, as they are stuck on. */
export async function labelParts(shop: ShopHandle, asked: LabelAsked) {
  const where = asked.ids.length
    ? { id: { in: [...asked.ids] } }
    : asked.family
      ? { family: asked.family, active: true }
      : asked.bin
        ? { bin: await writtenBin(shop, asked.bin), active: true }
        : { id: { in: [] as number[] } };
  return shop.read.part.findMany({
    where,
    select: { id: true, code: true, name: true, bin: true },
    orderBy: [{ bin: "asc" }, { code: "asc" }],
    take: 2000,
  });
}

/** A typed bin as the shop writes it: "b2" is "B2" where there is such a bin. */
async function writtenBin(shop: ShopHandle, typed: string): Promise<string> {
  const names = await binNamesIn(shop.read);
  const folded = typed.trim().toLowerCase();
  return names.find((name) => name === typed) ?? names.find((name) => name.toLowerCase() === folded) ?? typed;
}
