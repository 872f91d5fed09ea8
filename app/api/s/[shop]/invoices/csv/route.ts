import { exportedInvoices } from "@/lib/data/invoices/export";
import { type ExportedInvoice, invoicesCsv } from "@/lib/documents/csv";
import { file, shopFile } from "@/lib/gate/route";
import { ExportQuery } from "@/lib/schemas/invoices";

/** Issued documents for the books: `?from=` and `?to=` are days, both optional. */
export const GET = shopFile("export.run", async (shop, _params, request) => {
  const days = ExportQuery.parse(Object.fromEntries(request.nextUrl.searchParams));
  const rows: ExportedInvoice[] = [];
  for await (const row of exportedInvoices(shop, days)) rows.push(row);
  return file(
    invoicesCsv(rows),
    "text/csv; charset=utf-8",
    `invoices-${days.from ?? "first"}-${days.to ?? "last"}.csv`,
  );
});
