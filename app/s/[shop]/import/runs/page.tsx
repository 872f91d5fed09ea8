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
import { askedId } from "@/lib/gate/ids";
import { type OpenShop, open } from "@/lib/gate/open";
import { takeImportBack } from "../actions";
import { NOUN_WORDS } from "../nouns";
import { RunTable } from "../RunTable";

/** All imports, or the one that is asked for. */
export default async function ImportRunsPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const [{ shop: slug }, asked] = await Promise.all([params, searchParams]);
  const shop = await open("import.run", slug);
  if (asked.run === undefined)
    return (
      <>
        <PageHead of={shop.name} title="Imports" sub="the newest" />
        <RunTable shop={shop} />
      </>
    );
  const run = await getImport(shop, askedId(asked.run) ?? notFound());
  return run ? <Run shop={shop} run={run} /> : notFound();
}

type RunView = NonNullable<Awaited<ReturnType<typeof getImport>>>;

function Run({ shop, run }: { shop: OpenShop; run: RunView }) {
  const { locale, zone } = shop.settings;
  const when = (at: Date) => <Instant at={at.toISOString()} locale={locale} zone={zone} />;
  return (
    <>
      <PageHead
        of={shop.name}
        title={run.fileName}
        sub={NOUN_WORDS[run.noun as ImportNoun].name}
        actions={<LinkButton href={`/s/${shop.slug}/import/runs`}>All imports</LinkButton>}
      />
      {run.undoneAt && (
        <Note title="Taken back.">
          By {run.undoneBy}, {when(run.undoneAt)}.
        </Note>
      )}
      <div className="max-w-sm">
        <Facts
          rows={[
            { name: "Brought in", value: when(run.at) },
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
            <Form action={takeImportBack} shop={shop.slug} hidden={{ id: String(run.id) }} label="Take back">
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
