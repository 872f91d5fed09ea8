import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { Facts } from "@/app/_ui/Facts";
import { Link } from "@/app/_ui/Link";
import { moneyText } from "@/app/_ui/moneyText";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import { listOwing } from "@/lib/data/chasing/owing";
import { paidIn } from "@/lib/data/figures/daysToPay";
import { rangesFor } from "@/lib/data/figures/ranges";
import { AGES } from "@/lib/domain/chasing/age";
import { open } from "@/lib/gate/open";
import { COLUMN_WORDS } from "@/lib/schemas/chasing";
import { FiguresQuery } from "@/lib/schemas/figures";
import { FiguresHead } from "../FiguresHead";

const SHOWN = 200;
const daysText = (days: number | null) => (days === null ? "–" : `${days.toFixed(1)} days`);

/** What is owed now by age, and how long payments took in the range, against the range before. */
export default async function Owed({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("figures.read", slug);
  const asked = FiguresQuery.parse(await searchParams);
  const ranges = await rangesFor(shop, asked);
  const { sums } = await listOwing(shop, ranges.today);
  const now = await paidIn(shop, ranges.range);
  const before = await paidIn(shop, ranges.before);
  const { currency, locale } = shop.settings;
  const text = (minor: number) => moneyText(minor, currency, locale, true);
  const open90 = AGES.map((age) => ({ age, minor: sums.columns[age] ?? 0 }));
  const all = open90.reduce((sum, one) => sum + one.minor, 0);
  const notDue = sums.columns.notDue ?? 0;
  return (
    <>
      <FiguresHead shop={shop} title="Owed and paid" room="owed" asked={asked} ranges={ranges} csv="owed" />
      <Section title="Open now">
        <Facts
          rows={[
            ...open90.map(({ age, minor }) => ({
              key: age,
              name: (
                <Link
                  href={`/s/${slug}/invoices/owing?on=${ranges.today}&column=${age}`}
                  className="inline-flex min-h-6 items-center text-brass underline underline-offset-4 pointer-coarse:min-h-12"
                >
                  {COLUMN_WORDS[age]}
                </Link>
              ),
              value: text(minor),
              mono: true,
            })),
            { name: "Overdue", value: text(all - notDue), mono: true },
            { name: "Open in all", value: text(all), strong: true },
          ]}
        />
      </Section>
      <Section title="Days to pay">
        <Facts
          rows={[
            { name: "In this range", value: daysText(now.days), mono: true },
            { name: "In the range before", value: daysText(before.days), mono: true },
          ]}
        />
      </Section>
      {(now.cut || before.cut) && (
        <Note title="Only 5,000 payments are counted.">Choose a shorter range.</Note>
      )}
      {now.rows.length === 0 ? (
        <Empty title="No invoice was paid in this range." text="Choose another range." />
      ) : (
        <Section title="The payments behind it">
          <DataTable
            caption="Payments of invoices"
            locale={locale}
            columns={[
              { key: "invoice", header: "Invoice" },
              { key: "issued", header: "Issued", kind: "date" },
              { key: "paid", header: "Paid", kind: "date" },
              { key: "days", header: "Days", kind: "figure" },
              { key: "amount", header: "Amount", kind: "money" },
            ]}
            rows={now.rows.slice(0, SHOWN).map((row) => ({
              id: String(row.id),
              href: `/s/${slug}/invoices/${row.invoiceId}`,
              invoice: { text: row.written, sub: row.customer },
              issued: row.issuedOn,
              paid: row.paidOn,
              days: row.days,
              amount: { minor: row.amountMinor, currency },
            }))}
          />
          {now.rows.length > SHOWN && (
            <p className="mt-2 text-soft">{`The first ${SHOWN} of ${now.rows.length}; the file has all.`}</p>
          )}
          <Facts
            rows={[
              { name: `All ${now.rows.length} payments`, value: text(now.amountMinor), mono: true },
              { name: "Their days, weighed by amount", value: daysText(now.days), mono: true },
            ]}
          />
        </Section>
      )}
      <p className="max-w-prose text-[15px] text-soft">
        Open: what is still to be paid of issued invoices today; overdue is what was due before today. Days to
        pay: from an invoice's day of issue to the day its money came, each payment weighed by its amount.
        Deposits and counter sales count none; a payment that bounced later is still counted on its day.
      </p>
    </>
  );
}
