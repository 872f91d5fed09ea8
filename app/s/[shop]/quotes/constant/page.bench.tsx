import { quotesToCall, type ToCall } from "@/lib/data/quotes/call";
import { listQuotes, type QuoteLine } from "@/lib/data/quotes/list";
import { open } from "@/lib/gate/open";
import { QuoteList } from "../QuoteList";

interface Read {
  readonly list: { readonly rows: readonly QuoteLine[]; readonly next: number | null };
  readonly calls: readonly ToCall[];
}

let first: Promise<Read> | undefined;

/**
 * What the list of quotes is measured against: the same list behind the same gate, drawn from what its first visit read. A
 * page of the bench's own build (BENCH_BUILD in next.config.mjs); a shop's build leaves it out.
 */
export default async function ConstantQuotes({ params }: { params: Promise<{ shop: string }> }) {
  const shop = await open("quote.read", (await params).shop);
  first ??= Promise.all([listQuotes(shop, {}), quotesToCall(shop)]).then(([list, calls]) => ({
    list,
    calls,
  }));
  const { list, calls } = await first;
  return <QuoteList shop={shop} query={{}} rows={list.rows} next={list.next} calls={calls} />;
}
