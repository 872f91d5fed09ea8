import { quotesToCall } from "@/lib/data/quotes/call";
import { listQuotes } from "@/lib/data/quotes/list";
import { open } from "@/lib/gate/open";
import { ListQuotesSchema } from "@/lib/schemas/quotes";
import { QuoteList } from "./QuoteList";

interface Props {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | undefined>>;
}

export default async function Quotes({ params, searchParams }: Props) {
  const { shop: slug } = await params;
  const shop = await open("quote.read", slug);
  const query = ListQuotesSchema.parse(await searchParams);
  const whole = !(query.state || query.q || query.kind || query.after);
  const [{ rows, next }, calls] = await Promise.all([
    listQuotes(shop, query),
    whole && shop.can("quote.write") ? quotesToCall(shop) : [],
  ]);
  return <QuoteList shop={shop} query={query} rows={rows} next={next} calls={calls} />;
}
