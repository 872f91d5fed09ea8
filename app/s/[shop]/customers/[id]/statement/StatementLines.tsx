import { DataTable } from "@/app/_ui/DataTable";
import { Facts } from "@/app/_ui/Facts";
import { Money } from "@/app/_ui/Money";
import { Section } from "@/app/_ui/Section";
import { entryText } from "@/lib/documents/entryText";
import { FAVOURS } from "@/lib/domain/chasing/accountLines";
import { AGES } from "@/lib/domain/chasing/age";
import type { StatementPaper } from "@/lib/domain/chasing/statement";
import { COLUMN_WORDS } from "@/lib/schemas/chasing";
import { accountWords } from "@/lib/words/account";
import { paperWords } from "@/lib/words/papers";

interface Props {
  paper: StatementPaper;
  locale: string;
}

/** The lines of a statement with the balance after each, and what the last balance is made of. */
export function StatementLines({ paper, locale }: Props) {
  const { currency, openingMinor, closingMinor, entries, ageing } = paper;
  const words = accountWords("en");
  const papers = paperWords("en");
  const money = (minor: number) => ({ minor, currency });
  const amount = (minor: number) => <Money minor={minor} currency={currency} locale={locale} code />;
  return (
    <>
      <DataTable
        caption="Statement"
        columns={[
          { key: "on", header: "Date", kind: "date" },
          { key: "what", header: "What" },
          { key: "owed", header: "Charged", kind: "money" },
          { key: "paid", header: "Paid or credited", kind: "money" },
          { key: "balance", header: "Balance", kind: "money" },
        ]}
        locale={locale}
        rows={[
          { id: "opening", on: paper.from, what: words.opening, balance: money(openingMinor) },
          ...entries.map((entry, at) => ({
            id: String(at),
            on: entry.on,
            what: entryText(entry, words, papers),
            owed: entry.minor > 0 ? money(entry.minor) : null,
            paid: entry.minor < 0 ? money(0 - entry.minor) : null,
            balance: money(entry.balanceMinor),
          })),
        ]}
      />
      <Section title="What the balance is made of" className="mt-6 max-w-md">
        <Facts
          rows={[
            ...[...AGES, ...FAVOURS].flatMap((column) =>
              ageing[column] ? [{ name: COLUMN_WORDS[column], value: amount(ageing[column] ?? 0) }] : [],
            ),
            {
              name: closingMinor < 0 ? "To the customer's credit" : "To pay",
              value: amount(Math.abs(closingMinor)),
              strong: true,
            },
          ]}
        />
      </Section>
    </>
  );
}
