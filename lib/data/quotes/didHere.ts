import type { ShopReader, ShopTx } from "@/lib/db/shop";
import type { FrozenQuote } from "../documents/quote";
import { countedEffects } from "../jobs/packageEffects";
import type { FoundQuote } from "./rows";

type Reads = Pick<ShopReader, "settings" | "effect"> | Pick<ShopTx, "settings" | "effect">;

/** What a quote tells its customer of the packages on it: what they did on bikes here, where the shop ticks that and has read any. */
export async function didHere(reads: Reads, { revision }: FoundQuote): Promise<Pick<FrozenQuote, "did">> {
  const { effectsOnQuotes } = await reads.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { effectsOnQuotes: true },
  });
  if (!effectsOnQuotes) return {};
  const packages = new Map(
    revision.works.flatMap(({ packageRevision: of }) =>
      of ? [[of.package.id, of.package.name] as const] : [],
    ),
  );
  const did = [];
  for (const [id, name] of packages) {
    const effects = (await countedEffects(reads, id)).map(({ found }) => found);
    if (effects.length > 0) did.push({ name, effects });
  }
  return did.length > 0 ? { did } : {};
}
