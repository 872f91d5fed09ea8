import { Caution } from "@/app/_ui/Caution";
import { CheckField } from "@/app/_ui/CheckField";
import { DateText } from "@/app/_ui/DateText";
import type { InvoiceView } from "@/lib/data/invoices/get";
import { KIND_WORDS } from "@/lib/schemas/invoices";

/** Asks, where today's date is before that of the last document: the clock may be wrong, and a date cannot be taken back. */
export function EarlierDate({
  later,
  today,
  locale,
}: Pick<InvoiceView, "later" | "today"> & { locale: string }) {
  if (!later) return null;
  const day = (date: string) => <DateText date={date} locale={locale} />;
  return (
    <Caution title="The date goes back.">
      Today is {day(today)} on this server, and {KIND_WORDS[later.kind]} {later.written} is dated{" "}
      {day(later.issuedOn)}. See that the server's clock is right first.
      <CheckField name="earlier" label="Today's date is right: print it all the same" />
    </Caution>
  );
}
