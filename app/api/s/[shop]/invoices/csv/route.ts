import { exportedInvoices } from "@/lib/data/invoices/export";
import { invoicesCsvParts } from "@/lib/documents/csv";
import { file, shopFile, streamOf } from "@/lib/gate/route";
import { ExportQuery } from "@/lib/schemas/invoices";

/** Issued documents for the books: `?from=` and `?to=` are days, both optional. Sent as it is made. */
export const GET = shopFile("export.run", async (shop, _params, request) => {
  const days = ExportQuery.parse(Object.fromEntries(request.nextUrl.searchParams));
  return file(
    streamOf(invoicesCsvParts(exportedInvoices(shop, days))),
    "text/csv; charset=utf-8",
    `invoices-${days.from ?? "first"}-${days.to ?? "last"}.csv`,
  );
});
