import { notFound } from "next/navigation";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import { getPackage } from "@/lib/data/packages/get";
import { keyOf } from "@/lib/data/packages/items";
import { open } from "@/lib/gate/open";
import type { RecipePart } from "@/lib/schemas/recipeItem";
import { publish, rename } from "../../actions";
import { BeginDraft } from "../BeginDraft";
import { Problems } from "../Problems";
import { ruleText } from "../recipeWords";
import { type ItemLine, ItemList } from "./ItemList";

/** A draft taken apart: each list of the recipe with its items, and what the checks say of the whole. */
export default async function EditDraft({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("package.write", slug);
  const found = /^\d{1,9}$/.test(id) ? await getPackage(shop, Number(id)) : null;
  if (!found) notFound();
  const { shown } = found;
  const back = <LinkButton href={`/s/${slug}/packages/${id}`}>To the package</LinkButton>;
  if (shown?.state !== "draft")
    return (
      <>
        <PageHead title={found.name} actions={back} />
        <p className="mb-4 max-w-prose">
          {shown
            ? `Revision ${shown.number} is published and never changes. A new revision begins as a copy of it.`
            : "This package has no revision yet."}
        </p>
        <BeginDraft slug={slug} packageId={found.id} />
      </>
    );
  const { recipe } = shown;
  const group = (key: string) => recipe.groups.find((g) => g.key === key)?.name ?? `no group “${key}”`;
  const list = (part: RecipePart, lines: readonly ItemLine[]) => (
    <ItemList slug={slug} packageId={found.id} part={part} lines={lines} problems={shown.problems} />
  );
  return (
    <>
      <PageHead
        title={`${found.name}: draft`}
        state={<State shape="circle">{`Revision ${shown.number}, draft`}</State>}
        actions={
          <>
            {back}
            <LinkButton href={`/s/${slug}/packages/${id}/try`}>Try it on a model</LinkButton>
            <Form
              action={publish}
              shop={slug}
              hidden={{ revisionId: String(shown.id), version: String(shown.version) }}
              label="Publish"
            >
              <SubmitButton disabled={shown.problems.length > 0}>Publish</SubmitButton>
            </Form>
          </>
        }
      />
      <div className="mb-5">
        <Problems problems={shown.problems} />
      </div>
      <div className="grid gap-x-8 rail:grid-cols-2">
        <div className="min-w-0">
          {list(
            "groups",
            recipe.groups.map((g) => ({ key: g.key, name: g.name, sub: g.choose })),
          )}
          {list(
            "options",
            recipe.options.map((o) => ({
              key: o.key,
              name: o.name,
              sub: [group(o.group), o.preset ? "ticked at the start" : "", o.roadUse ? "road use" : ""]
                .filter(Boolean)
                .join(" · "),
            })),
          )}
          {list(
            "rules",
            recipe.rules.map((r) => ({ key: keyOf(r), name: ruleText(r, recipe), sub: r.why })),
          )}
        </div>
        <div className="min-w-0">
          {list(
            "operations",
            recipe.operations.map((o) => ({
              key: o.key,
              name: o.name,
              sub: `${o.minutes} min · ${o.grade}`,
            })),
          )}
          {list(
            "accesses",
            recipe.accesses.map((a) => ({
              key: a.key,
              name: a.name,
              sub: `${a.openMinutes} min to open, ${a.closeMinutes} to close`,
            })),
          )}
          <Section title="The package itself">
            <Form
              key={found.version}
              action={rename}
              shop={slug}
              hidden={{ packageId: id, version: String(found.version) }}
              label="Name of the package"
            >
              <TextField name="name" label="Name" initial={found.name} required maxLength={120} />
              <TextArea
                name="summary"
                label="What it is for"
                rows={2}
                initial={found.summary}
                maxLength={400}
              />
              <SubmitButton tone="second">Save the name</SubmitButton>
            </Form>
          </Section>
        </div>
      </div>
    </>
  );
}
