import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { TableColumn } from "@/app/_ui/tableTypes";
import { type EntryView, listEntries } from "@/lib/data/library/read";
import { type Behind, packagesBehind } from "@/lib/data/packages/offers";
import { ENTRY_KINDS } from "@/lib/domain/library/entry";
import { FAMILIES, PLACES, placeName } from "@/lib/domain/library/places";
import { open } from "@/lib/gate/open";
import { LibraryQuery } from "@/lib/schemas/library";
import { take } from "./actions";
import { capital, familiesText, KIND_WORDS, minutesText } from "./entryWords";

const COLUMNS: readonly TableColumn[] = [
  { key: "name", header: "Entry" },
  { key: "kind", header: "Kind" },
  { key: "place", header: "Place" },
  { key: "minutes", header: "Off + on" },
  { key: "families", header: "For" },
];
const FILTERS = [
  {
    name: "kind",
    label: "Kind",
    options: ENTRY_KINDS.map((value) => ({ value, label: KIND_WORDS[value].many })),
  },
  { name: "family", label: "For", options: FAMILIES.map(({ key, name }) => ({ value: key, label: name })) },
  { name: "place", label: "Place", options: PLACES.map(({ key, name }) => ({ value: key, label: name })) },
];

interface Props {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}

/** The shop's accesses, work, cautions and checks, which packages pick from. */
export default async function Library({ params, searchParams }: Props) {
  const { shop: slug } = await params;
  const shop = await open("package.read", slug);
  const query = LibraryQuery.parse(await searchParams);
  const [entries, behind] = await Promise.all([listEntries(shop, query), packagesBehind(shop)]);
  const mayWrite = shop.can("package.write");
  const path = `/s/${slug}/packages/library`;
  const narrowed = Boolean(query.q || query.kind || query.family || query.place);
  return (
    <>
      <PageHead
        of={shop.name}
        title="Library"
        sub="What packages pick from: accesses, work, cautions, checks"
        actions={mayWrite && <Acts path={path} slug={slug} />}
      />
      {mayWrite && <Offered slug={slug} behind={behind} />}
      <DataTable
        caption="Library"
        columns={COLUMNS}
        locale={shop.settings.locale}
        path={path}
        query={{ ...query }}
        search="Name or place"
        filters={FILTERS}
        rows={entries.map((row) => lineOf(row, mayWrite ? path : null))}
        empty={
          narrowed ? (
            <Empty title="Nothing of that in the library." text="Take a filter off, or try another word." />
          ) : (
            <Empty
              title="Nothing in the library yet."
              text="Take the starting library over: what comes off for carburettor work, what breaks there and what is checked on closing. Its minutes are starting figures of common practice; it is yours to change."
              action={mayWrite && <TakeAll slug={slug} />}
            />
          )
        }
      />
    </>
  );
}

/** A row of the list; it opens for whoever may change it. */
function lineOf({ id, active, entry }: EntryView, path: string | null) {
  return {
    id: String(id),
    ...(path ? { href: `${path}/${id}` } : {}),
    name: active ? entry.name : { text: entry.name, sub: "taken out of the library" },
    kind: capital(KIND_WORDS[entry.kind].one),
    place: placeName(entry.place),
    minutes: minutesText(entry),
    families: familiesText(entry),
  };
}

function TakeAll({ slug }: { slug: string }) {
  return (
    <>
      <Form action={take} shop={slug} hidden={{ all: "yes" }} label="Take the starting library over">
        <SubmitButton>Take the starting library over</SubmitButton>
      </Form>
      <LinkButton href={`/s/${slug}/packages/library/start`}>Choose piece by piece</LinkButton>
    </>
  );
}

function Acts({ path, slug }: { path: string; slug: string }) {
  return (
    <>
      <LinkButton href={`/s/${slug}/packages`}>Packages</LinkButton>
      <LinkButton href={`/api/s/${slug}/packages/library`} download>
        Save as a file
      </LinkButton>
      <LinkButton href={`${path}/import`}>From a file</LinkButton>
      <LinkButton href={`${path}/start`}>Starting library</LinkButton>
      <LinkButton href={`${path}/new`} tone="main">
        New entry
      </LinkButton>
    </>
  );
}

function Offered({ slug, behind }: { slug: string; behind: readonly Behind[] }) {
  if (behind.length === 0) return null;
  return (
    <div className="mb-5">
      <Note title="Changed here since these packages picked it">
        <ul>
          {behind.map(({ packageId, name, entries }) => (
            <li key={packageId}>
              <Link
                href={`/s/${slug}/packages/${packageId}/library`}
                className="inline-flex min-h-6 items-center text-brass underline underline-offset-4 pointer-coarse:min-h-12"
              >
                {`${name}: ${entries.length} ${entries.length === 1 ? "entry" : "entries"}`}
              </Link>
            </li>
          ))}
        </ul>
      </Note>
    </div>
  );
}
