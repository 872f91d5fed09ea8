import { DataTable } from "@/app/_ui/DataTable";
import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { listImports } from "@/lib/data/imports/list";
import { IMPORT_NOUNS, type ImportNoun } from "@/lib/domain/imports/types";
import { open } from "@/lib/gate/open";
import { NOUN_WORDS } from "./nouns";

export default async function ImportPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("import.run", slug);
  const runs = await listImports(shop);
  return (
    <>
      <PageHead of={shop.name} title="Import" sub="from a CSV file" />
      <Section title="What is in the file">
        <ul className="max-w-[720px]">
          {IMPORT_NOUNS.map((noun) => (
            <li key={noun} className="border-hair border-b">
              <Link
                href={`/s/${slug}/import/${noun}`}
                className="grid min-h-12 gap-x-6 py-2.5 no-underline hover:bg-sheet sm:grid-cols-[160px_1fr]"
              >
                <strong>{NOUN_WORDS[noun].name}</strong>
                <span className="text-soft">{NOUN_WORDS[noun].about}</span>
              </Link>
            </li>
          ))}
        </ul>
      </Section>
      <Section title="Brought in so far">
        <DataTable
          caption="Imports"
          columns={[
            { key: "file", header: "File" },
            { key: "noun", header: "What" },
            { key: "at", header: "When", kind: "instant" },
            { key: "rows", header: "Rows", kind: "figure" },
            { key: "added", header: "Added", kind: "figure" },
            { key: "changed", header: "Changed", kind: "figure" },
            { key: "back", header: "Taken back", kind: "instant" },
          ]}
          rows={runs.map((run) => ({
            id: String(run.id),
            href: `/s/${slug}/import/runs/${run.id}`,
            file: run.fileName,
            noun: NOUN_WORDS[run.noun as ImportNoun]?.name ?? run.noun,
            at: run.at.toISOString(),
            rows: run.rows,
            added: run.added,
            changed: run.changed,
            back: run.undoneAt?.toISOString() ?? null,
          }))}
          locale={shop.settings.locale}
          zone={shop.settings.zone}
          empty={<p className="text-soft">Nothing yet.</p>}
        />
      </Section>
    </>
  );
}
