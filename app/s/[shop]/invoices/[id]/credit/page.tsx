import { notFound } from "next/navigation";
import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { getCreditable } from "@/lib/data/invoices/creditable";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { EarlierDate } from "../EarlierDate";
import { CreditDesk } from "./CreditDesk";

/** Credits a part of an issued invoice: how much of each line, or an amount off the whole. */
export default async function CreditPage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("invoice.write", slug);
  const view = await getCreditable(shop, pathId(id));
  if (!view) notFound();
  const { locale } = shop.settings;
  const plain = <T extends { because: unknown }>(line: T) => ({ ...line, because: [] });
  return (
    <>
      <PageHead
        of={shop.name}
        title={`Credit a part of invoice ${view.written}`}
        sub={
          <Link
            href={`/s/${slug}/invoices/${view.id}`}
            className="underline decoration-hair underline-offset-4 hover:decoration-ink"
          >
            {view.doc.buyer.name}, invoice {view.written}
          </Link>
        }
      />
      <CreditDesk
        shop={slug}
        id={view.id}
        version={view.version}
        doc={{ ...view.doc, locale, lines: view.doc.lines.map(plain) }}
        credits={view.credits.map((credit) => ({ ...credit, lines: credit.lines.map(plain) }))}
        lines={view.lines.map((one) => ({ ...one, line: plain(one.line), part: one.part && {} }))}
        leftMinor={view.grossMinor - view.prepaidMinor - view.paidMinor}
        timeOpen={view.timeOpen}
        earlier={<EarlierDate later={view.later} today={view.today} locale={locale} />}
      />
    </>
  );
}
