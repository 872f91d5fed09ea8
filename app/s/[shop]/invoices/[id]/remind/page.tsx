import { notFound } from "next/navigation";
import { CheckField } from "@/app/_ui/CheckField";
import { Facts } from "@/app/_ui/Facts";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Money } from "@/app/_ui/Money";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import type { NotReminded } from "@/lib/data/chasing/late";
import { reminderToSend } from "@/lib/data/chasing/sent";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { levelWord } from "@/lib/schemas/chasing";
import { NoLetter } from "../../../_letters/NoLetter";
import { remind } from "../../reminders/actions";

const WHY: Readonly<Record<NotReminded, readonly [message: string, remedy: string]>> = {
  notLate: ["Nothing of this is late.", "It is reminded of once the day of payment is over."],
  writtenOff: ["Some of it is written off: nothing more is asked for it.", "Take the write-off back first."],
  stopped: ["Its reminders are stopped.", "End the stop on the invoice's or the customer's page."],
  allSent: ["All reminders are written.", "Call the customer, agree on instalments, or have it collected."],
};

/** The reminder of an invoice that is next, as it will read, and one tap to send it. */
export default async function RemindPage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("chasing.write", slug);
  const found = await reminderToSend(shop.read, pathId(id), shop.now);
  if (!found) notFound();
  const { locale, currency } = shop.settings;
  const money = (minor: number) => <Money minor={minor} currency={currency} locale={locale} code />;
  const { next, letter, against } = found;
  const title = next && !against ? levelWord(next.level) : "reminder";
  const back = `/s/${slug}/invoices/${found.id}`;
  return (
    <>
      <PageHead
        of={shop.name}
        title={`Invoice ${found.written}, ${title}`}
        sub={found.customer?.name}
        actions={<LinkButton href={back}>To the invoice</LinkButton>}
      />
      {against && <Note title={WHY[against][0]}>{WHY[against][1]}</Note>}
      {letter && next && (
        <div className="grid gap-x-10 rail:grid-cols-2">
          <Section title="What is asked for">
            <Facts
              rows={[
                { name: "Left to pay", value: money(found.leftMinor) },
                ...(found.feesMinor > 0
                  ? [{ name: "Fees of reminders", value: money(found.feesMinor) }]
                  : []),
                { name: "In all", value: money(found.leftMinor + found.feesMinor), strong: true },
              ]}
            />
            <Form
              action={remind}
              shop={slug}
              hidden={{ id: String(found.id), level: String(next.level) }}
              label="Reminder"
              className="mt-5"
            >
              <TextArea name="words" label="In your own words (may stay empty)" rows={3} maxLength={1000} />
              {found.withheld ? (
                <>
                  <NoLetter withheld={found.withheld} customer={found.customer ?? { name: "", phone: "" }} />
                  <input type="hidden" name="byHand" value="on" />
                  <SubmitButton>Record it to print and hand over</SubmitButton>
                </>
              ) : (
                <>
                  <CheckField
                    name="byHand"
                    label="Not by mail: I print it and hand it over"
                    detail={`Else it goes to ${found.customer?.email ?? ""}.`}
                  />
                  <SubmitButton>Send the reminder</SubmitButton>
                </>
              )}
            </Form>
          </Section>
          <Section title="As it will read">
            <div className="border-ink border-t-2 bg-sheet px-5 py-4">
              <p className="mb-3 font-semibold">{letter.subject}</p>
              <p className="whitespace-pre-line break-words">{letter.text}</p>
            </div>
          </Section>
        </div>
      )}
    </>
  );
}
