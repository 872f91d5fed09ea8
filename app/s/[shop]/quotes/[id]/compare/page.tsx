import { notFound } from "next/navigation";
import { DataTable } from "@/app/_ui/DataTable";
import { minutesText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { moneyText } from "@/app/_ui/moneyText";
import { PageHead } from "@/app/_ui/PageHead";
import type { TableColumn } from "@/app/_ui/tableTypes";
import { whatIfs } from "@/lib/data/quotes/whatIf";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";

const COLUMNS: readonly TableColumn[] = [
  { key: "what", header: "If" },
  { key: "minutes", header: "Work", kind: "figure" },
  { key: "more", header: "Work changes by", kind: "figure" },
  { key: "total", header: "Total", kind: "money" },
  { key: "dearer", header: "Total changes by", kind: "figure" },
];

const signed = (n: number, text: string) => (n > 0 ? `+${text}` : n < 0 ? `−${text}` : "same");

/** What each option would change, one at a time. */
export default async function Compare({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("quote.read", slug);
  const found = await whatIfs(shop, pathId(id));
  if (!found) notFound();
  const { currency, locale } = found;
  return (
    <>
      <PageHead
        of={shop.name}
        title={`Quote ${found.number}: what if`}
        sub={`Now ${minutesText(found.minutes, "min", "h")}, ${moneyText(found.grossMinor, currency, locale, true)}`}
        actions={<LinkButton href={`/s/${slug}/quotes/${id}`}>Back to the quote</LinkButton>}
      />
      <DataTable
        caption="What each option would change"
        columns={COLUMNS}
        locale={locale}
        rows={found.rows.map((row) => ({
          id: row.key,
          what: {
            text: `${row.on ? "Without" : "With"} ${row.name}`,
            sub: row.also.length > 0 ? `and so ${row.also.join(", ")} ${row.on ? "too" : "changes"}` : "",
          },
          minutes: minutesText(row.minutes, "min", "h"),
          more: signed(row.minutesMore, minutesText(Math.abs(row.minutesMore), "min", "h")),
          total: { minor: row.grossMinor, currency },
          dearer: signed(row.grossMore, moneyText(Math.abs(row.grossMore), currency, locale)),
        }))}
      />
    </>
  );
}
