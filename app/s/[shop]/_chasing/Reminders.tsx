import { DateField } from "@/app/_ui/DateField";
import { DateText } from "@/app/_ui/DateText";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { SentReminders } from "@/lib/data/chasing/sent";
import { levelWord } from "@/lib/schemas/chasing";
import { goOn, stop, waive } from "../invoices/reminders/actions";

interface Props {
  slug: string;
  reminders: SentReminders;
  of: { readonly invoiceId: number } | { readonly customerId: number };
  /** Something that could be reminded of is open. */
  open: boolean;
  today: string;
  currency: string;
  locale: string;
  mayChase: boolean;
}

/** What was sent, what became of its fees, and what stops further reminders; nothing where there is nothing to say. */
export function Reminders(props: Props) {
  const { reminders, mayChase, open, of, slug, today, locale } = props;
  const { sent, stops } = reminders;
  if (sent.length === 0 && stops.length === 0 && !(open && mayChase)) return null;
  const hidden: Readonly<Record<string, string>> =
    "invoiceId" in of ? { invoiceId: String(of.invoiceId) } : { customerId: String(of.customerId) };
  return (
    <Section title="Payment reminders">
      {stops.map((one) => (
        <Note key={one.id} title="No reminders are written.">
          {one.reason}, {one.personName}
          {one.untilOn && (
            <>
              , until <DateText date={one.untilOn} locale={locale} />
            </>
          )}
          .
          {mayChase && (
            <Form action={goOn} shop={slug} hidden={{ id: String(one.id) }} label="Go on reminding">
              <SubmitButton tone="quiet">Go on reminding</SubmitButton>
            </Form>
          )}
        </Note>
      ))}
      <ul>
        {sent.map((one) => (
          <Sent key={one.id} one={one} {...props} />
        ))}
      </ul>
      {mayChase && stops.length === 0 && (
        <p className="mt-3">
          <Dialog trigger="Stop reminders" title="Stop reminders">
            <Form action={stop} shop={slug} hidden={hidden} label="Stop reminders">
              <p className="mb-3 max-w-prose">
                {"invoiceId" in of ? "Of this invoice" : "Of all invoices of this customer"} no reminder is
                written, neither by hand nor by itself.
              </p>
              <TextField
                name="reason"
                label="Why"
                hint="Disputed, or pays on Friday."
                maxLength={120}
                required
              />
              <DateField name="untilOn" label="Until and with (may stay empty)" min={today} />
              <SubmitButton>Stop them</SubmitButton>
            </Form>
          </Dialog>
        </p>
      )}
    </Section>
  );
}

const MAIL = { sent: "", failed: ", not sent", held: ", held back" } as const;

function Sent({ one, slug, of, currency, locale, mayChase }: Props & { one: SentReminders["sent"][number] }) {
  const money = (minor: number) => <Money minor={minor} currency={currency} locale={locale} code />;
  const state = one.mail && (MAIL[one.mail.state as keyof typeof MAIL] ?? ", in the mail queue");
  return (
    <li className="border-hair border-b py-2">
      <DateText date={one.onDay} locale={locale} />: {levelWord(one.level)}
      {"customerId" in of && (
        <>
          {" of "}
          <Link
            href={`/s/${slug}/invoices/${one.invoice.id}`}
            className="text-brass underline underline-offset-4"
          >
            invoice {one.invoice.written}
          </Link>
        </>
      )}
      , {money(one.leftMinor)} left{" "}
      <LinkButton
        tone="quiet"
        download
        href={`/api/s/${slug}/reminders/${one.id}`}
        label={`PDF of the ${levelWord(one.level)} of invoice ${one.invoice.written}`}
      >
        PDF
      </LinkButton>
      <span className="block text-[14px] text-soft">
        {one.mail ? `to ${one.mail.to}${state}` : "handed over by the shop"}
        {one.automatic && ", by itself"}
      </span>
      {one.fee && (
        <span className="block text-[15px]">
          Fee {money(one.feeMinor)}, {one.fee === "open" ? "asked for, not charged yet" : one.fee}
          {one.fee === "open" && mayChase && (
            <Dialog trigger="Waive" title="Waive the fee">
              <Form action={waive} shop={slug} hidden={{ reminderId: String(one.id) }} label="Waive the fee">
                <TextField name="reason" label="Why" maxLength={120} required />
                <SubmitButton>Ask for it no more</SubmitButton>
              </Form>
            </Dialog>
          )}
        </span>
      )}
    </li>
  );
}
