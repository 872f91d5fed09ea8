import { notFound } from "next/navigation";
import { Dialog } from "@/app/_ui/Dialog";
import { Facts } from "@/app/_ui/Facts";
import { Form } from "@/app/_ui/Form";
import { Instant } from "@/app/_ui/Instant";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { Working } from "@/app/_ui/Working";
import { getImport } from "@/lib/data/imports/list";
import type { ImportNoun } from "@/lib/domain/imports/types";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { takeImportBack } from "../../actions";
import { NOUN_WORDS } from "../../nouns";

export default async function ImportRunPage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("import.run", slug);
  const run = await getImport(shop, pathId(id));
  if (!run) notFound();
  const { locale, zone } = shop.settings;
  const noun = NOUN_WORDS[run.noun as ImportNoun];
  return (
    <>
      <PageHead
        of={shop.name}
        title={run.fileName}
        sub={noun.name}
        actions={<LinkButton href={`/s/${slug}/import`}>All imports</LinkButton>}
      />
      {run.undoneAt && (
        <Note title="Taken back.">
          By {run.undoneBy}, <Instant at={run.undoneAt.toISOString()} locale={locale} zone={zone} />.
        </Note>
      )}
      <div className="max-w-sm">
        <Facts
          rows={[
            { name: "Brought in", value: <Instant at={run.at.toISOString()} locale={locale} zone={zone} /> },
            ...(run.by ? [{ name: "By", value: run.by }] : []),
            { name: "Rows", value: run.rows, mono: true },
            { name: "Added", value: run.added, mono: true },
            { name: "Changed", value: run.changed, mono: true },
          ]}
        />
      </div>
      {run.canBeTakenBack && (
        <div className="mt-8">
          <Dialog trigger="Take this import back" triggerTone="danger" title={`Take ${run.fileName} back`}>
            <Form action={takeImportBack} shop={slug} hidden={{ id: String(run.id) }} label="Take back">
              <p className="mb-3">
                What it added is removed, and what it changed is as it was before. Where anything was edited
                since, or something hangs on it, nothing is done and you are told what. Parts with opening
                stock are put away with nothing on hand, since their ledger stays.
              </p>
              <SubmitButton tone="danger">Take it back</SubmitButton>
              <Working>Looking at each record. All of it goes back, or nothing.</Working>
            </Form>
          </Dialog>
        </div>
      )}
    </>
  );
}
