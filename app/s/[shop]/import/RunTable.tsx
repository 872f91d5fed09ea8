import { DataTable } from "@/app/_ui/DataTable";
import { listImports } from "@/lib/data/imports/list";
import type { ImportNoun } from "@/lib/domain/imports/types";
import type { OpenShop } from "@/lib/gate/open";
import { NOUN_WORDS } from "./nouns";

/** The newest imports, each with the way to take it back. */
export async function RunTable({ shop }: { shop: OpenShop }) {
  const runs = await listImports(shop);
  return (
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
        href: `/s/${shop.slug}/import/runs?run=${run.id}`,
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
  );
}
