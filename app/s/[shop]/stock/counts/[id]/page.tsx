import { notFound } from "next/navigation";
import { instantText } from "@/app/_ui/format";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { State } from "@/app/_ui/State";
import { getCount, MOST_ON_SHEET } from "@/lib/data/stock/binCounts";
import { unitPriceText } from "@/lib/domain/money/unitPrice";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { amountText, signedText } from "../../amount";
import { Approve } from "./Approve";
import { BlindForm } from "./BlindForm";

export default async function CountPage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("stock.write", slug);
  const count = await getCount(shop, pathId(id));
  if (!count) notFound();
  const { locale, zone, currency } = shop.settings;
  if (count.state === "open")
    return (
      <>
        <PageHead of={shop.name} title={`Count bin ${count.bin}`} sub={`${count.lines.length} parts`} />
        {count.lines.length >= MOST_ON_SHEET && (
          <Note>
            A count takes {MOST_ON_SHEET} parts at once: of a fuller bin those that were not counted for
            longest. Begin the next one when this is done.
          </Note>
        )}
        <BlindForm
          shop={slug}
          sheetId={count.id}
          version={count.version}
          lines={count.lines.map((line) => ({ partId: line.partId, ...line.part }))}
        />
      </>
    );
  const withCost = shop.can("margin.read");
  return (
    <>
      <PageHead
        of={shop.name}
        title={`Count of bin ${count.bin}`}
        sub={`counted by ${count.countedBy}${count.countedAt ? `, ${instantText(count.countedAt.toISOString(), locale, zone)}` : ""}`}
        state={
          <State
            shape={count.state === "approved" ? "filled" : "diamond"}
            tone={count.state === "approved" ? "pine" : "brass"}
          >
            {count.state === "approved"
              ? `approved by ${count.approvedBy}`
              : count.state === "dropped"
                ? "given up"
                : "to be approved"}
          </State>
        }
      />
      <Approve
        shop={slug}
        sheetId={count.id}
        version={count.version}
        open={count.state === "counted"}
        mayApprove={shop.role === "owner" || shop.role === "desk"}
        lines={count.lines.map((line) => {
          const text = (milli: number) => amountText(milli, line.part.unit, locale);
          return {
            partId: line.partId,
            code: line.part.code,
            name: line.part.name,
            counted: line.countedMilli === null ? null : text(line.countedMilli),
            ledger: line.seenMilli === null ? "" : text(line.seenMilli),
            variance: line.varianceMilli ? signedText(line.varianceMilli, line.part.unit, locale) : null,
            worth:
              withCost && line.worthE4
                ? `${unitPriceText(line.worthE4, currency, locale)} ${currency}`
                : null,
            missing: line.missingMilli > 0 ? text(line.missingMilli) : null,
            leftOut: line.leftOut,
          };
        })}
      />
    </>
  );
}
