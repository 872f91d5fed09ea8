import { entriesToName } from "@/lib/data/library/read";
import type { EntryKind, LibraryEntry } from "@/lib/domain/library/entry";
import type { OpenShop } from "@/lib/gate/open";
import { AccessEntryForm } from "./AccessEntryForm";
import { LineEntryForm } from "./LineEntryForm";
import { OperationEntryForm } from "./OperationEntryForm";

interface Props {
  shop: OpenShop;
  kind: EntryKind;
  hidden: Readonly<Record<string, string>>;
  entry: LibraryEntry | undefined;
}

/** The form of an entry's kind. */
export async function EntryForm({ shop, kind, hidden, entry }: Props) {
  const { slug } = shop;
  if (kind === "caution" || kind === "check")
    return (
      <LineEntryForm
        slug={slug}
        hidden={hidden}
        kind={kind}
        entry={entry?.kind === "caution" || entry?.kind === "check" ? entry : undefined}
      />
    );
  const [accesses, operations] = await Promise.all([
    entriesToName(shop, "access"),
    entriesToName(shop, "operation"),
  ]);
  const given = { slug, hidden, accesses, operations };
  return kind === "access" ? (
    <AccessEntryForm {...given} entry={entry?.kind === "access" ? entry : undefined} />
  ) : (
    <OperationEntryForm {...given} entry={entry?.kind === "operation" ? entry : undefined} />
  );
}
