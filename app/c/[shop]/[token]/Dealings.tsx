import { HowToPay } from "@/app/_documents/HowToPay";
import { Facts } from "@/app/_ui/Facts";
import { dateText, instantText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { moneyText } from "@/app/_ui/moneyText";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import { jobDealings } from "@/lib/data/papers/progress";
import type { OpenedLink } from "@/lib/gate/customer";
import { wordsIn } from "@/lib/words/words";

interface Props {
  link: OpenedLink;
  jobId: number;
  path: string;
}

type Dealt = Awaited<ReturnType<typeof jobDealings>>;

/** What was agreed for the job, what waits for a word, the deposit and the invoices with what is left to pay. */
export async function Dealings({ link, jobId, path }: Props) {
  const dealt = await jobDealings(link.shop, jobId);
  const { locale } = link;
  return (
    <>
      <Waiting dealt={dealt} locale={locale} />
      <Agreed dealt={dealt} link={link} />
      <Invoices dealt={dealt} locale={locale} path={path} />
    </>
  );
}

function Waiting({ dealt, locale }: { dealt: Dealt; locale: string }) {
  const say = wordsIn(locale);
  return dealt.waiting.map(({ title, grossMinor }) => (
    <Note key={title} title={say("jobPage.waits")}>
      {say("jobPage.waitsText", { title, amount: moneyText(grossMinor, dealt.currency, locale) })}
    </Note>
  ));
}

function Agreed({ dealt, link }: { dealt: Dealt; link: OpenedLink }) {
  const { locale } = link;
  const { agreed, added, depositLeftMinor, depositPaidMinor } = dealt;
  if (!agreed) return null;
  const say = wordsIn(locale);
  const money = (minor: number) => moneyText(minor, dealt.currency, locale);
  const at = agreed.at && instantText(agreed.at.toISOString(), locale, dealt.zone, "date");
  return (
    <Section title={say("jobPage.agreed")}>
      {at && agreed.by && <p className="mb-2">{say("jobPage.agreedOn", { day: at, by: agreed.by })}</p>}
      <ul className="mb-4 list-disc pl-5">
        {agreed.options.map((name) => (
          <li key={name}>{name}</li>
        ))}
      </ul>
      <Facts
        rows={[
          { key: "agreed", name: say("jobPage.agreedTotal"), value: money(agreed.grossMinor), strong: true },
          ...added.map(({ title, grossMinor }) => ({ key: title, name: title, value: money(grossMinor) })),
          ...(depositPaidMinor > 0
            ? [{ key: "paid", name: say("jobPage.depositPaid"), value: money(depositPaidMinor) }]
            : []),
          ...(depositLeftMinor > 0
            ? [{ key: "left", name: say("jobPage.deposit"), value: money(depositLeftMinor), strong: true }]
            : []),
        ]}
      />
      {dealt.depositAsk && (
        <div className="mt-2">
          <HowToPay
            ask={dealt.depositAsk}
            currency={dealt.currency}
            amountMinor={depositLeftMinor}
            locale={locale}
          />
        </div>
      )}
    </Section>
  );
}

function Invoices({ dealt, locale, path }: { dealt: Dealt; locale: string; path: string }) {
  if (dealt.invoices.length === 0) return null;
  const say = wordsIn(locale);
  const day = (given: string | null) => (given ? dateText(given, locale, "long") : "");
  const kind = {
    invoice: "jobPage.kindInvoice",
    receipt: "jobPage.kindReceipt",
    creditNote: "jobPage.kindCreditNote",
  } as const;
  return (
    <Section title={say("jobPage.invoices")}>
      <ul>
        {dealt.invoices.map((invoice) => (
          <li key={invoice.id} className="border-hair border-b py-2">
            <p>
              {say("jobPage.invoiceLine", {
                title: say(kind[invoice.kind]),
                number: invoice.written,
                day: day(invoice.issuedOn),
              })}
              {": "}
              {invoice.kind === "creditNote" || invoice.credited ? (
                say(invoice.credited ? "jobPage.takenBack" : "jobPage.toYourCredit")
              ) : invoice.leftMinor > 0 ? (
                <strong>
                  {say("jobPage.left", {
                    amount: moneyText(invoice.leftMinor, dealt.currency, locale),
                    day: day(invoice.dueOn),
                  })}
                </strong>
              ) : (
                say(invoice.writtenOff ? "invoicePage.nothingToPay" : "jobPage.paid")
              )}
            </p>
            {invoice.ask && (
              <HowToPay
                ask={invoice.ask}
                currency={dealt.currency}
                amountMinor={invoice.leftMinor}
                locale={locale}
              />
            )}
            <p className="mt-2">
              <LinkButton href={`${path}/pdf?invoice=${invoice.id}`} download>
                {say("invoicePage.keepPdf")}
              </LinkButton>
            </p>
          </li>
        ))}
      </ul>
    </Section>
  );
}
