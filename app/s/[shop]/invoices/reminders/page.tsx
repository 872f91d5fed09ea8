import { CheckField } from "@/app/_ui/CheckField";
import { DateText } from "@/app/_ui/DateText";
import { Empty } from "@/app/_ui/Empty";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { type DueReminder, dueReminders, MOST_LATE } from "@/lib/data/chasing/due";
import { inPlaceOf } from "@/lib/data/mail/letters";
import { open } from "@/lib/gate/open";
import { levelWord, MOST_REMINDERS } from "@/lib/schemas/chasing";
import { remindAll } from "./actions";

/** The reminders that are to be written today: each is looked at, and sent alone or together. */
export default async function RemindersPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("chasing.write", slug);
  const { due, more } = await dueReminders(shop.read, shop.now);
  const { locale, currency } = shop.settings;
  const here = `/s/${slug}/invoices`;
  const mailed = due.filter((one) => one.withheld === null);
  const others = due.filter((one) => one.withheld !== null);
  const look = (one: DueReminder) => (
    <LinkButton
      tone="quiet"
      className="shrink-0"
      href={`${here}/${one.id}/remind`}
      label={`Look at it: invoice ${one.written}`}
    >
      Look at it
    </LinkButton>
  );
  const about = (one: DueReminder) => (
    <>
      {levelWord(one.next.level)}, due <DateText date={one.dueOn} locale={locale} />, {one.lateDays}{" "}
      {one.lateDays === 1 ? "day" : "days"} late.
    </>
  );
  const left = (one: DueReminder) => <Money minor={one.leftMinor} currency={currency} locale={locale} />;
  return (
    <>
      <PageHead
        of={shop.name}
        title="Reminders to send"
        sub={due.length === 0 ? undefined : `${due.length} today`}
        actions={
          <>
            <LinkButton href={`${here}/owing`}>Who owes what</LinkButton>
            {shop.can("shop.write") && (
              <LinkButton href={`/s/${slug}/shop/reminders`}>When they are written</LinkButton>
            )}
          </>
        }
      />
      {more && (
        <Note title="There are more late invoices than are looked through.">
          The newest {MOST_LATE} are. Write off or stop what is not asked for any more.
        </Note>
      )}
      {due.length === 0 && (
        <Empty
          title="No reminder is due."
          text="Late invoices turn up here on the days that the shop has chosen."
        />
      )}
      {mailed.length > 0 && (
        <Form action={remindAll} shop={slug} label="Reminders to send" className="max-w-3xl">
          <Section title="By mail">
            {mailed.map((one, at) => (
              <div key={one.id} className="flex items-center gap-x-4 border-hair border-b">
                <div className="min-w-0 grow">
                  <CheckField
                    name="reminders[]"
                    value={`${one.id}-${one.next.level}`}
                    initial={at < MOST_REMINDERS}
                    label={`Invoice ${one.written}, ${one.customer?.name ?? "no customer"}`}
                    detail={about(one)}
                    figure={left(one)}
                  />
                </div>
                {look(one)}
              </div>
            ))}
          </Section>
          <SubmitButton>Send all that are ticked</SubmitButton>
        </Form>
      )}
      {others.length > 0 && (
        <Section title="By other means" className="mt-7 max-w-3xl">
          <ul>
            {others.map((one) => (
              <li key={one.id} className="flex justify-between gap-4 border-hair border-b py-3">
                <span>
                  <strong>
                    Invoice {one.written}, {one.customer?.name ?? "no customer"}
                  </strong>
                  <span className="block">{about(one)}</span>
                  <span className="block text-[15px] text-soft">
                    {one.withheld &&
                      inPlaceOf(one.withheld, { name: one.customer?.name ?? "", phone: "" }).message}
                  </span>
                </span>
                <span className="flex flex-col items-end">
                  {left(one)}
                  {look(one)}
                </span>
              </li>
            ))}
          </ul>
        </Section>
      )}
    </>
  );
}
