import { statementPaper, usualDays } from "@/lib/data/chasing/statement";
import { dayIn } from "@/lib/domain/schedule/days";
import { shopFile } from "@/lib/gate/route";
import { StatementQuery } from "@/lib/schemas/chasing";
import { inWorker } from "@/lib/workers/pool";
import { idOf, missing, pdfFile } from "../../../paper";

/** A customer's statement of account: `?from=` and `?to=` are days, the last three months where there are none. */
export const GET = shopFile("invoice.read", async (shop, params, request) => {
  const asked = StatementQuery.parse(Object.fromEntries(request.nextUrl.searchParams));
  const usual = usualDays(asked.to ?? dayIn(shop.settings.zone, shop.now));
  const days = { ...usual, ...(asked.from ? { from: asked.from } : {}) };
  const paper = await statementPaper(shop.read, idOf(params), days, shop.now);
  if (!paper) throw missing();
  const pdf = await inWorker(shop, "statementPdf", paper, { signal: request.signal });
  return pdfFile(pdf, `statement-${days.from}-${days.to}`);
});
