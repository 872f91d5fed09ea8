import { saftOf } from "@/lib/data/ledger/saft";
import { SAFT_END, SAFT_JOURNALS, saftJournal } from "@/lib/documents/saft";
import type { BookedEntry } from "@/lib/domain/ledger/book";
import { versionHere } from "@/lib/gate/health";
import { file, shopFile, streamOf } from "@/lib/gate/route";
import { ledgerRange } from "@/lib/schemas/ledger";
import { inWorker } from "@/lib/workers/pool";

/** So many entries are written at a time. */
const AT_ONCE = 200;

/** The Norwegian audit file (SAF-T Financial 1.30) of `?from=` to `?to=`, written in a worker thread piece by piece. */
export const GET = shopFile("books.read", async (shop, _params, request) => {
  const range = ledgerRange(Object.fromEntries(request.nextUrl.searchParams), shop.now, shop.settings.zone);
  const { head, entries } = await saftOf(shop, range);
  const { currency } = head;
  const write = (some: readonly BookedEntry[]) =>
    inWorker(shop, "saftTransactions", { entries: some, currency }, { signal: request.signal });

  async function* parts(): AsyncGenerator<string, void, undefined> {
    for (const journal of SAFT_JOURNALS) {
      const own = entries.filter((entry) => entry.journal === journal);
      if (own.length === 0) continue;
      const [begins, ends] = saftJournal(journal);
      yield begins;
      for (let at = 0; at < own.length; at += AT_ONCE) yield await write(own.slice(at, at + AT_ONCE));
      yield ends;
    }
    yield SAFT_END;
  }

  const first = await inWorker(shop, "saftHead", { ...head, softwareVersion: versionHere() });
  async function* whole(): AsyncGenerator<string, void, undefined> {
    yield first;
    yield* parts();
  }
  const made = head.createdOn.replaceAll("-", "");
  return file(
    streamOf(whole()),
    "application/xml; charset=utf-8",
    `SAF-T-Financial_${head.company.number}_${made}_${range.from}_${range.to}.xml`,
  );
});
