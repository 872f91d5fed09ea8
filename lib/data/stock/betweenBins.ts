import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { binText } from "@/lib/domain/stock/bins";
import { changeBinIn, knownBinIn, lyingIn, type PartToMove } from "./lying";
import { demandQuantity } from "./quantity";
import { setHomeIn } from "./shelf";

export interface BetweenBins {
  partId: number;
  from: string;
  to: string;
  quantityMilli: number;
  /** Makes the bin it goes to, or another, the part's usual one; the version is the part's as it was seen. */
  home?: { version: number; bin?: string | undefined } | undefined;
  /** Takes an earlier move back: only then may it go to no bin. */
  undoes?: boolean | undefined;
  key?: string | undefined;
}

export interface MovedBetween {
  /** Its name as the shop writes it. */
  to: string;
  /** The part's version now, and its usual bin before. */
  version: number;
  homeBefore: string;
}

const PART = { id: true, code: true, unit: true, bin: true, version: true } as const;

/**
 * Moves some of a part from one bin to another: two rows of the ledger that add up to nothing, so that on hand, what
 * is reserved and what it cost stay. A bin of a name not known yet is a new one.
 */
export async function moveBetweenBins(shop: ShopHandle, input: BetweenBins): Promise<MovedBetween> {
  return shop.write((tx) =>
    once(tx, shop, "moved between bins", input, async (): Promise<MovedBetween> => {
      const part = await tx.part.findUnique({ where: { id: input.partId }, select: PART });
      if (!part) throw new Refusal("There is no such part.", "Choose a part from stock.", {}, "missing");
      demandQuantity(input.quantityMilli, part.unit);
      const from = await knownBinIn(tx, part, input.from);
      const to = await knownBinIn(tx, part, input.to);
      if (to === "" && !input.undoes)
        throw new Refusal("No bin is named.", "Say which bin it goes to: what is written on it will do.", {
          newBin: "Say which bin it goes to.",
        });
      if (from === to)
        throw new Refusal(`${part.code} lies in ${binText(to)} already.`, "Choose another bin.", {
          newBin: "It lies there.",
        });
      await pairIn(tx, shop, part, { from, to, quantityMilli: input.quantityMilli });
      const { home } = input;
      if (home) await setHomeIn(tx, shop, part.id, home.version, home.bin ?? to);
      return { to, version: home ? home.version + 1 : part.version, homeBefore: part.bin };
    }),
  );
}

/** Moves all of a part into one bin, from every bin it lies in, or from the one named. */
export async function gatherIn(
  tx: ShopTx,
  shop: ShopHandle,
  part: PartToMove,
  to: string,
  only?: string,
): Promise<void> {
  for (const { bin, onHandMilli } of await lyingIn(tx, part.id))
    if (bin !== to && (only === undefined || bin === only))
      await pairIn(tx, shop, part, { from: bin, to, quantityMilli: onHandMilli });
}

async function pairIn(
  tx: ShopTx,
  shop: ShopHandle,
  part: PartToMove,
  { from, to, quantityMilli }: { from: string; to: string; quantityMilli: number },
): Promise<void> {
  await changeBinIn(tx, part, from, -quantityMilli);
  await changeBinIn(tx, part, to, quantityMilli);
  const row = { partId: part.id, kind: "betweenBins" as const, at: shop.now, staffId: shop.by.staffId };
  for (const [bin, milli, why] of [
    [from, -quantityMilli, `to ${binText(to)}`],
    [to, quantityMilli, `from ${binText(from)}`],
  ] as const)
    await tx.move.create({ data: { ...row, bin, quantityMilli: milli, why }, select: { id: true } });
  await audit(tx, shop, "betweenBins", "part", part.id, { from, to, quantityMilli });
}
