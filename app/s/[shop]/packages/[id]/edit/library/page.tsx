import { notFound } from "next/navigation";
import { CheckField } from "@/app/_ui/CheckField";
import { Empty } from "@/app/_ui/Empty";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TableFilters } from "@/app/_ui/TableFilters";
import { TextField } from "@/app/_ui/TextField";
import { kitsToName } from "@/lib/data/kits/read";
import { type EntryView, listEntries } from "@/lib/data/library/read";
import { getPackage } from "@/lib/data/packages/get";
import { gradesToName } from "@/lib/data/packages/supplies";
import { FAMILIES, PLACES } from "@/lib/domain/library/places";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { LibraryQuery } from "@/lib/schemas/library";
import { openKit, pickFromLibrary } from "../../../actions";
import { familiesText, KIND_WORDS, minutesText } from "../../../library/entryWords";
import { BeginDraft } from "../../BeginDraft";

interface Props {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}

/** What the library has for a draft: work and accesses, narrowed by family, ticked and added in one act. */
export default async function PickFromLibrary({ params, searchParams }: Props) {
  const [{ shop: slug, id }, asked] = await Promise.all([params, searchParams]);
  const shop = await open("package.write", slug);
  const found = await getPackage(shop, pathId(id));
  if (!found) notFound();
  const edit = `/s/${slug}/packages/${id}/edit`;
  const head = (
    <PageHead
      of={shop.name}
      title="From the library"
      sub={`${found.name}, draft`}
      actions={<LinkButton href={edit}>Back to the draft</LinkButton>}
    />
  );
  if (found.shown?.state !== "draft")
    return (
      <>
        {head}
        <p className="mb-4">There is no draft to add to: what is published stays as it is.</p>
        <BeginDraft slug={slug} packageId={found.id} />
      </>
    );
  const { q, family } = LibraryQuery.parse(asked);
  const [entries, grades, kits] = await Promise.all([
    listEntries(shop, LibraryQuery.parse({ q, family })),
    gradesToName(shop),
    kitsToName(shop),
  ]);
  const { options } = found.shown.recipe;
  const there = new Set((found.shown.recipe.picks ?? []).map(({ entry }) => entry));
  const free = entries.filter(({ active, entry }) => active && !there.has(entry.key));
  const of = (kind: EntryView["entry"]["kind"]) => free.filter(({ entry }) => entry.kind === kind);
  return (
    <>
      {head}
      <TableFilters
        at={{ path: `${edit}/library`, query: { q, family } }}
        search="Name or place"
        filters={[
          {
            name: "family",
            label: "For",
            options: FAMILIES.map(({ key, name }) => ({ value: key, label: name })),
          },
        ]}
      />
      {of("operation").length + of("access").length === 0 ? (
        <Empty
          title="Nothing to pick here."
          text="All of it is in the draft, or the library has nothing of that."
          action={<LinkButton href={`/s/${slug}/packages/library`}>To the library</LinkButton>}
        />
      ) : (
        <Form
          key={`${q} ${family}`}
          action={pickFromLibrary}
          shop={slug}
          hidden={{ packageId: id }}
          label="Add to the draft"
          className="max-w-[60rem]"
        >
          <p className="mb-2 text-soft">What the work needs open comes with it, and what that needs.</p>
          {(["operation", "access"] as const).map((kind) => (
            <Section key={kind} title={KIND_WORDS[kind].many}>
              <Ticks entries={of(kind)} />
            </Section>
          ))}
          <div className="grid gap-x-6 sm:grid-cols-2">
            <TextField
              name="option"
              label="As one option called"
              hint="Empty: no option, the work alone"
              maxLength={120}
            />
            <SelectField
              name="grade"
              label="Labour grade of the work"
              options={grades.map(({ code, name }) => ({ value: code, label: name }))}
            />
          </div>
          <SubmitButton size="act" className="max-sm:w-full">
            Add to the draft
          </SubmitButton>
        </Form>
      )}
      {kits.length > 0 && options.length > 0 && (
        <Section title="A kit, opened into an option">
          <Form
            action={openKit}
            shop={slug}
            hidden={{ packageId: id }}
            label="A kit, opened into an option"
            className="max-w-[60rem]"
          >
            <p className="mb-2 text-soft">
              Its parts come to the option. Where the kit has a price, they cost that together.
            </p>
            <div className="grid gap-x-6 sm:grid-cols-2">
              <SelectField
                name="kitId"
                label="Kit"
                options={kits.map((kit) => ({ value: String(kit.id), label: `${kit.code} ${kit.name}` }))}
              />
              <SelectField
                name="option"
                label="Option"
                options={options.map(({ key, name }) => ({ value: key, label: name }))}
              />
            </div>
            <SubmitButton tone="second">Open the kit</SubmitButton>
          </Form>
        </Section>
      )}
    </>
  );
}

function Ticks({ entries }: { entries: readonly EntryView[] }) {
  const placed = PLACES.flatMap(({ key }) => entries.filter(({ entry }) => entry.place === key));
  return (
    <div className="grid gap-x-8 sm:grid-cols-2">
      {placed.map(({ entry }) => (
        <CheckField
          key={entry.key}
          name="entries[]"
          value={entry.key}
          label={entry.name}
          detail={familiesText(entry)}
          figure={minutesText(entry)}
          ruled
        />
      ))}
    </div>
  );
}
