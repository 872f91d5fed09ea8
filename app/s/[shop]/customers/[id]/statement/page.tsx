import { notFound } from "next/navigation";
import { buttonLook } from "@/app/_ui/buttonLook";
import { DateField } from "@/app/_ui/DateField";
import { DateText } from "@/app/_ui/DateText";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { statementPaper, usualDays } from "@/lib/data/chasing/statement";
import { getCustomer } from "@/lib/data/customers/customers";
import { withheldFrom } from "@/lib/data/mail/letters";
import { lettersAbout } from "@/lib/data/mail/list";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { StatementQuery } from "@/lib/schemas/chasing";
import { Letters } from "../../../_letters/Letters";
import { MailIt } from "./MailIt";
import { StatementLines } from "./StatementLines";

/** A customer's account over some days, as it is printed and mailed. */
export default async function StatementPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug, id } = await params;
  const shop = await open("invoice.read", slug);
  const customerId = pathId(id);
  const customer = await getCustomer(shop, customerId, { invoices: false });
  if (!customer) notFound();
  const { locale, zone } = shop.settings;
  const asked = StatementQuery.parse(await searchParams);
  const usual = usualDays(asked.to ?? dayIn(zone, shop.now));
  const days = { ...usual, ...(asked.from ? { from: asked.from } : {}) };
  const [made, letters, withheld] = await Promise.all([
    attempt(() => statementPaper(shop.read, customerId, days, shop.now)),
    lettersAbout(shop.read, { noun: "customer", nounId: customerId }),
    withheldFrom(shop.read, "statement", customer),
  ]);
  const file = `/api/s/${slug}/customers/${customerId}/statement?from=${days.from}&to=${days.to}`;
  return (
    <>
      <PageHead
        of={shop.name}
        title={`Statement, ${customer.name}`}
        sub={
          <>
            <DateText date={days.from} locale={locale} /> to <DateText date={days.to} locale={locale} />
          </>
        }
        actions={
          <>
            <LinkButton href={`/s/${slug}/customers/${customerId}`}>To the customer</LinkButton>
            {"paper" in made && (
              <LinkButton href={file} download>
                PDF
              </LinkButton>
            )}
            {"paper" in made && shop.can("chasing.write") && (
              <MailIt slug={slug} customer={customer} days={days} withheld={withheld} />
            )}
          </>
        }
      />
      <form method="get" aria-label="Days" className="mb-5 flex flex-wrap items-end gap-3 print:hidden">
        <DateField name="from" label="From" initial={days.from} className="mb-0!" />
        <DateField name="to" label="To" initial={days.to} className="mb-0!" />
        <button type="submit" className={buttonLook("second")}>
          Show
        </button>
      </form>
      {"refused" in made && <Note title={made.refused.message}>{made.refused.remedy}</Note>}
      {"paper" in made && made.paper && <StatementLines paper={made.paper} locale={locale} />}
      <Letters letters={letters} locale={locale} zone={zone} />
    </>
  );
}

type Made<T> = { readonly paper: T } | { readonly refused: Refusal };

async function attempt<T>(run: () => Promise<T>): Promise<Made<T>> {
  try {
    return { paper: await run() };
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    return { refused: cause };
  }
}
