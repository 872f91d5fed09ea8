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
import { recipeLacks } from "@/lib/data/packages/lacks";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import type { RecipePart } from "@/lib/schemas/recipeItem";
import { dropIt, rename, writeRevision } from "../../actions";
import { BeginDraft } from "../BeginDraft";
import { Problems } from "../Problems";
import { PublishStep } from "../PublishStep";
import { ItemList } from "./ItemList";
import { linesOf } from "./itemLines";

/** A draft taken apart: each list of the recipe with its items, and what the checks say of the whole. */
export default async function EditDraft({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("package.write", slug);
  const found = await getPackage(shop, pathId(id));
  if (!found) notFound();
  const { shown } = found;
  const back = <LinkButton href={`/s/${slug}/packages/${id}`}>To the package</LinkButton>;
  if (shown?.state !== "draft")
    return (
      <>
        <PageHead of={shop.name} title={found.name} actions={back} />
        <p className="mb-4 max-w-prose">
          {shown
            ? `Revision ${shown.number} is published and never changes. A new revision begins as a copy of it.`
            : "This package has no revision yet."}
        </p>
        <BeginDraft slug={slug} packageId={found.id} />
      </>
    );
  const { recipe, problems } = shown;
  const lacks = await recipeLacks(shop, recipe);
  const edit = `/s/${slug}/packages/${id}/edit`;
  const list = (part: RecipePart) => (
    <ItemList slug={slug} packageId={found.id} part={part} lines={linesOf(part, recipe, problems)} />
  );
  return (
    <>
      <PageHead
        of={shop.name}
        title={`${found.name}: draft`}
        state={<State shape="circle">{`Revision ${shown.number}, draft`}</State>}
        actions={
          <>
            {back}
            <LinkButton href={`${edit}/library`}>Pick from the library</LinkButton>
            <LinkButton href={`/s/${slug}/packages/${id}/try`}>Try it on a model</LinkButton>
            <Form
              action={dropIt}
              undo={writeRevision}
              shop={slug}
              hidden={{ packageId: id, version: String(shown.version) }}
              label="Throw the draft away"
            >
              <SubmitButton tone="quiet">Throw the draft away</SubmitButton>
            </Form>
            <PublishStep
              slug={slug}
              packageId={found.id}
              revision={shown.number}
              disabled={problems.length > 0}
            />
          </>
        }
      />
      <div className="mb-5">
        <Problems problems={problems} lacks={lacks} edit={edit} />
      </div>
      <div className="grid gap-x-8 rail:grid-cols-2">
        <div className="min-w-0">
          {list("accesses")}
          {list("operations")}
        </div>
        <div className="min-w-0">
          {list("groups")}
          {list("options")}
          {list("rules")}
          <Section title="The package itself">
            <Form
              // Each act on a part of the package makes a version: what is half typed here stays.
              key={JSON.stringify([found.name, found.summary])}
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
