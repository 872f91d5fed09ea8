import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { LEDGER_LAYOUT } from "@/lib/documents/ledgerCsv";
import { open } from "@/lib/gate/open";

const NAMES: Readonly<Record<keyof typeof LEDGER_LAYOUT, string>> = {
  journal: "Journal",
  balances: "Trial balance",
  documents: "Documents register",
  payments: "Payments register",
  stock: "Stock value",
  hours: "Hours, by person and week",
};

/** How the files for the accountant are laid out. */
export default async function Layout({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("books.read", slug);
  return (
    <>
      <PageHead of={shop.name} title="Layout of the files" />
      <p className="mb-5 max-w-prose">
        CSV as in RFC 4180: UTF-8 with a byte-order mark, commas, lines that end with CR LF, the names of the
        columns in the first row. Decimals have a point and no mark between thousands, days are YYYY-MM-DD.
        What a spreadsheet would run as a formula begins with an apostrophe.
      </p>
      {Object.entries(LEDGER_LAYOUT).map(([key, columns]) => (
        <Section key={key} title={NAMES[key as keyof typeof LEDGER_LAYOUT]}>
          <table className="ledger max-w-[820px]">
            <caption className="sr-only">Columns of the file, in their order</caption>
            <thead>
              <tr>
                <th scope="col">Column</th>
                <th scope="col">What stands in it</th>
              </tr>
            </thead>
            <tbody>
              {columns.map((column) => (
                <tr key={column.name}>
                  <td data-first="" className="font-mono">
                    {column.name}
                  </td>
                  <td data-name="Holds">{column.what}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </Section>
      ))}
    </>
  );
}
