import { taxTermsOf } from "@/lib/data/shop/taxTerms";
import { reportEntries } from "@/lib/data/taxReport/entries";
import { taxCsv } from "@/lib/documents/tax";
import { dayIn } from "@/lib/domain/schedule/days";
import { file, shopFile, streamOf } from "@/lib/gate/route";
import { taxStretch } from "@/lib/schemas/tax";

/** The tax summary's documents and money, as the page is asked: `?by=`, `from`, `to`, `basis`. Sent as it is made. */
export const GET = shopFile("export.run", async (shop, _params, request) => {
  const { zone, taxRegime, currency } = shop.settings;
  const terms = await taxTermsOf(shop.read, taxRegime);
  const asked = Object.fromEntries(request.nextUrl.searchParams);
  const { basis, from, to } = taxStretch(asked, terms, dayIn(zone, shop.now));
  const query = { basis, from, to, depositsReceived: terms.depositsReceived };
  return file(
    streamOf(taxCsv(reportEntries(shop.read, query), { basis, currency })),
    "text/csv; charset=utf-8",
    `tax-${basis}-${from}-${to}.csv`,
  );
});
