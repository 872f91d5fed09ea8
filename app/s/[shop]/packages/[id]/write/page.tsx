import { notFound } from "next/navigation";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { getPackage } from "@/lib/data/packages/get";
import { open } from "@/lib/gate/open";
import { writeRevision } from "../../actions";

const FIRST = JSON.stringify(
  {
    format: "throttlewright-recipe",
    version: 1,
    groups: [],
    options: [],
    operations: [],
    accesses: [],
    rules: [],
  },
  null,
  2,
);

/** A revision as text: starts from the newest one. */
export default async function WriteRevision({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("package.write", slug);
  const found = /^\d{1,9}$/.test(id) ? await getPackage(shop, Number(id)) : null;
  if (!found) notFound();
  return (
    <>
      <PageHead
        title={`${found.name}: ${found.shown?.state === "draft" ? "rewrite the draft" : "new revision"}`}
        actions={<LinkButton href={`/s/${slug}/packages/${id}`}>Back</LinkButton>}
      />
      <Note title="A recipe as JSON.">
        It is checked when you save it: shape first, then every rule. A draft with faults is kept, and cannot
        be published.
      </Note>
      <Form action={writeRevision} shop={slug} hidden={{ packageId: id }} label="Recipe">
        <TextArea
          name="recipe"
          label="Recipe"
          rows={28}
          initial={found.shown ? JSON.stringify(found.shown.recipe, null, 2) : FIRST}
          required
          className="[&_textarea]:font-mono [&_textarea]:text-[14px]"
        />
        <SubmitButton>Save as draft and check</SubmitButton>
      </Form>
    </>
  );
}
