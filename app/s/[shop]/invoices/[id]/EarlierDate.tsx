import { Caution } from "@/app/_ui/Caution";
import { CheckField } from "@/app/_ui/CheckField";
import { DateText } from "@/app/_ui/DateText";
import type { InvoiceView } from "@/lib/data/invoices/get";

const WORDS = { invoice: "invoice", creditNote: "credit note" } as const;

/** Asks, where today's date is before that of the last document: the clock may be wrong, and a date cannot be taken back. */
export function EarlierDate({ invoice: { later, today, doc } }: { invoice: InvoiceView }) {
  if (!later || !doc) return null;
  const day = (date: string) => <DateText date={date} locale={doc.locale} />;
  return (
    <Caution title="The date goes back.">
      Today is {day(today)} on this server, and {WORDS[later.kind]} {later.number} is dated{" "}
      {day(later.issuedOn)}. See that the server's clock is right first.
      <CheckField name="earlier" label="Today's date is right: print it all the same" />
    </Caution>
  );
}
