import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { ENTRY_KINDS } from "@/lib/domain/library/entry";
import { open } from "@/lib/gate/open";
import { EntryForm } from "../EntryForm";
import { KIND_WORDS } from "../entryWords";

interface Props {
  params: Promise<{ shop: string }>;
  searchParams: Promise<{ kind?: string }>;
}

/** A new entry: first its kind, then its form. */
export default async function NewEntry({ params, searchParams }: Props) {
  const [{ shop: slug }, query] = await Promise.all([params, searchParams]);
  const shop = await open("package.write", slug);
  const kind = ENTRY_KINDS.find((one) => one === query.kind);
  const path = `/s/${slug}/packages/library`;
  return (
    <>
      <PageHead
        of={shop.name}
        title={kind ? `New ${KIND_WORDS[kind].one}` : "New entry"}
        sub="Of the library"
        actions={<LinkButton href={path}>Back to the library</LinkButton>}
      />
      {kind ? (
        <EntryForm shop={shop} kind={kind} hidden={{}} entry={undefined} />
      ) : (
        <div className="flex flex-wrap gap-3">
          {ENTRY_KINDS.map((one) => (
            <LinkButton key={one} href={`${path}/new?kind=${one}`}>
              {KIND_WORDS[one].a}
            </LinkButton>
          ))}
        </div>
      )}
    </>
  );
}
