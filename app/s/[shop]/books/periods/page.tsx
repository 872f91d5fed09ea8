import { DateField } from "@/app/_ui/DateField";
import { DateText } from "@/app/_ui/DateText";
import { Dialog } from "@/app/_ui/Dialog";
import { Empty } from "@/app/_ui/Empty";
import { Form } from "@/app/_ui/Form";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { closedThrough, listClosings } from "@/lib/data/shop/closing";
import { dayIn, lastDayOfMonthBefore } from "@/lib/domain/schedule/days";
import { open } from "@/lib/gate/open";
import { closePeriod, reopenPeriod } from "./actions";

/** Up to which day the books are closed, who closed or reopened them, and the forms to do it. */
export default async function PeriodsPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("books.read", slug);
  const { locale, zone } = shop.settings;
  const today = dayIn(zone, shop.now);
  const through = await closedThrough(shop.read);
  const rows = await listClosings(shop);
  const month = lastDayOfMonthBefore(today);
  return (
    <>
      <PageHead
        of={shop.name}
        title="Periods"
        sub={
          through ? (
            <>
              Closed up to <DateText date={through} locale={locale} />
            </>
          ) : (
            "Nothing is closed"
          )
        }
      />
      <p className="mb-5 max-w-prose">
        In a closed period no invoice, credit note or receipt is issued, and no payment, refund, write-off or
        bounced payment is dated. What comes late is dated on the first open day.
      </p>
      {shop.can("books.close") && (
        <Section title="Close">
          <Form
            action={closePeriod}
            shop={slug}
            hidden={{ seen: through }}
            label="Close a period"
            className="max-w-md"
          >
            <DateField
              name="throughDay"
              label="Up to and with"
              initial={month > through ? month : undefined}
              max={today}
              required
            />
            <TextField name="reason" label="Note, if any" maxLength={200} />
            <SubmitButton>Close the period</SubmitButton>
          </Form>
        </Section>
      )}
      {shop.can("books.reopen") && through !== "" && (
        <Dialog trigger="Reopen" title="Reopen a closed period">
          <Form action={reopenPeriod} shop={slug} hidden={{ seen: through }} label="Reopen a period">
            <p className="mb-3 max-w-prose">
              From that day on things can be dated again. What was reported for it may then no longer be what
              the books say.
            </p>
            <DateField name="fromDay" label="From" initial={through} max={through} required />
            <TextField name="reason" label="Why" required maxLength={200} />
            <SubmitButton>Reopen the period</SubmitButton>
          </Form>
        </Dialog>
      )}
      <Section title="What was done" className="mt-8">
        {rows.length === 0 ? (
          <Empty title="No period was closed yet." text="Close one once its figures are reported." />
        ) : (
          <ul className="max-w-[720px]">
            {rows.map((row) => (
              <li key={row.id} className="border-hair border-b py-2">
                {row.act === "closed" ? "Closed" : "Reopened"}
                {row.throughDay ? (
                  <>
                    , closed up to <DateText date={row.throughDay} locale={locale} />
                  </>
                ) : (
                  ", nothing is closed"
                )}
                {row.reason && `: ${row.reason}`}
                <span className="block text-[15px] text-soft">
                  {row.personName}, <DateText date={dayIn(zone, row.at)} locale={locale} />
                </span>
              </li>
            ))}
          </ul>
        )}
      </Section>
    </>
  );
}
