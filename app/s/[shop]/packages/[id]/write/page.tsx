import { notFound } from "next/navigation";
import { Form } from "@/app/_ui/Form";
import { KeepMine } from "@/app/_ui/KeepMine";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { seenOf } from "@/lib/data/packages/author";
import { EMPTY_RECIPE } from "@/lib/data/packages/draft";
import { getPackage } from "@/lib/data/packages/get";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { writeRevision } from "../../actions";

/** A revision as text: starts from the newest one. */
export default async function WriteRevision({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("package.write", slug);
  const found = await getPackage(shop, pathId(id));
  if (!found) notFound();
  return (
    <>
      <PageHead
        of={shop.name}
        title={`${found.name}: ${found.shown?.state === "draft" ? "rewrite the draft" : "new revision"}`}
        actions={<LinkButton href={`/s/${slug}/packages/${id}`}>Back</LinkButton>}
      />
      <Note title="A recipe as JSON.">
        It is checked when you save it: shape first, then every rule. A draft with faults is kept, and cannot
        be published.
      </Note>
      <Form
        action={writeRevision}
        shop={slug}
        hidden={{ packageId: id, seen: seenOf(found.shown) }}
        label="Recipe"
      >
        <TextArea
          name="recipe"
          label="Recipe"
          rows={28}
          initial={JSON.stringify(found.shown?.recipe ?? EMPTY_RECIPE, null, 2)}
          required
          className="[&_textarea]:font-mono [&_textarea]:text-[14px]"
        />
        <KeepMine />
        <SubmitButton>Save as draft and check</SubmitButton>
      </Form>
    </>
  );
}
