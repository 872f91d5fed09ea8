import type { ShopHandle } from "@/lib/db/shop";
import { bikeName } from "../bikes/bikeName";
import { findQuote } from "./rows";
import { type WorkView, workView } from "./workView";

export interface WorkPage {
  readonly quote: {
    readonly id: number;
    readonly number: string;
    readonly version: number;
    readonly bike: string;
  };
  /** Null where no work was asked for, or the draft has none of this key. */
  readonly work: WorkView | null;
}

/** A draft, with one of its works; null where there is no such draft. */
export async function getWork(
  shop: ShopHandle,
  id: number,
  key: string | undefined,
): Promise<WorkPage | null> {
  const found = await findQuote(shop.read, id);
  if (found?.quote.state !== "draft") return null;
  const { quote, revision } = found;
  const row = key === undefined ? undefined : revision.works.find((work) => work.key === key);
  return {
    quote: { id: quote.id, number: quote.number, version: quote.version, bike: bikeName(quote.bike) },
    work: row ? workView(row) : null,
  };
}
