import { notFound } from "next/navigation";
import { Dialog } from "@/app/_ui/Dialog";
import { Empty } from "@/app/_ui/Empty";
import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { getPackage, type PackageView, type RevisionView } from "@/lib/data/packages/get";
import { recipeLacks } from "@/lib/data/packages/lacks";
import { packagesBehind } from "@/lib/data/packages/offers";
import { askedId, pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { copy, retire, takePackageOut } from "../actions";
import { BeginDraft } from "./BeginDraft";
import { Evidence } from "./Evidence";
import { Lacks, Problems } from "./Problems";
import { PublishStep } from "./PublishStep";
import { RecipeView } from "./RecipeView";

interface Props {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ revision?: string }>;
}

export default async function Package({ params, searchParams }: Props) {
  const [{ shop: slug, id }, { revision }] = await Promise.all([params, searchParams]);
  const shop = await open("package.read", slug);
  const number = askedId(revision);
  const found = await getPackage(shop, pathId(id), number);
  if (!found || (revision && !found.shown)) notFound();
  const mayWrite = shop.can("package.write");
  const { shown } = found;
  const lacks = shown ? await recipeLacks(shop, shown.recipe) : [];
  const behind = mayWrite ? await packagesBehind(shop, found.id) : [];
  return (
    <>
      <PageHead
        of={shop.name}
        title={found.name}
        sub={<span className="font-mono">{found.code}</span>}
        state={shown && <RevisionState shown={shown} active={found.active} />}
        actions={mayWrite && <Acts slug={slug} found={found} />}
      />
      {found.summary && <p className="mb-5 max-w-prose text-soft">{found.summary}</p>}
      {behind.length > 0 && (
        <div className="mb-5">
          <Note title="The library reads otherwise now than this package picked it.">
            <LinkButton href={`/s/${slug}/packages/${found.id}/library`}>Look at the differences</LinkButton>
          </Note>
        </div>
      )}
      {found.revisions.length > 1 && <Revisions slug={slug} found={found} />}
      {shown ? (
        <>
          {shown.state === "draft" ? (
            <Problems
              problems={shown.problems}
              lacks={lacks}
              edit={mayWrite ? `/s/${slug}/packages/${found.id}/edit` : undefined}
            />
          ) : (
            <Lacks lacks={lacks} />
          )}
          <FileLinks slug={slug} found={found} mayWrite={mayWrite} />
          <Evidence slug={slug} shown={shown} />
          <RecipeView shown={shown} currency={shop.settings.currency} locale={shop.settings.locale} />
        </>
      ) : (
        <Empty
          title="No revision yet."
          text="A revision holds the recipe: groups, options, work, accesses and rules."
          action={mayWrite && <BeginDraft slug={slug} packageId={found.id} />}
        />
      )}
    </>
  );
}

function RevisionState({ shown, active }: { shown: RevisionView; active: boolean }) {
  if (!active) return <State shape="dash">Off the list</State>;
  return shown.state === "published" ? (
    <State shape="filled" tone="pine">{`Revision ${shown.number}, published`}</State>
  ) : (
    <State shape="circle">{`Revision ${shown.number}, draft`}</State>
  );
}

function Acts({ slug, found }: { slug: string; found: PackageView }) {
  const { shown } = found;
  return (
    <>
      <Form
        action={retire}
        shop={slug}
        hidden={{
          packageId: String(found.id),
          version: String(found.version),
          active: found.active ? "no" : "yes",
        }}
        label="On the list for new quotes"
      >
        <SubmitButton tone="second">
          {found.active ? "Take off the list" : "Put back on the list"}
        </SubmitButton>
      </Form>
      {found.revisions.every((one) => one.state === "draft") && (
        <Dialog trigger="Remove" triggerTone="danger" title={`Remove ${found.name}`}>
          <Form
            action={takePackageOut}
            shop={slug}
            hidden={{ id: String(found.id), version: String(found.version) }}
            label="Remove"
          >
            <p className="mb-3">
              For a package made by mistake. One that was published is taken off the list instead.
            </p>
            <SubmitButton tone="danger">Remove</SubmitButton>
          </Form>
        </Dialog>
      )}
      <Dialog trigger="Copy" title={`A copy of ${found.name}`}>
        <Form action={copy} shop={slug} hidden={{ packageId: String(found.id) }} label="Copy">
          <TextField
            name="code"
            label="Code"
            initial={`${found.code}-2`.slice(0, 24)}
            required
            mono
            maxLength={24}
          />
          <TextField name="name" label="Name" initial={`${found.name}, copy`} required maxLength={120} />
          <SubmitButton>Copy it</SubmitButton>
        </Form>
      </Dialog>
      {shown && (
        <LinkButton href={`/s/${slug}/packages/${found.id}/try?revision=${shown.number}`}>
          Try it on a model
        </LinkButton>
      )}
      {found.revisions[0]?.state === "draft" ? (
        <LinkButton
          href={`/s/${slug}/packages/${found.id}/edit`}
          tone={shown?.problems.length ? "main" : "second"}
        >
          Edit the draft
        </LinkButton>
      ) : (
        <BeginDraft slug={slug} packageId={found.id} />
      )}
      {shown?.state === "draft" && (
        <PublishStep
          slug={slug}
          packageId={found.id}
          revision={shown.number}
          disabled={shown.problems.length > 0}
        />
      )}
    </>
  );
}

function FileLinks({ slug, found, mayWrite }: { slug: string; found: PackageView; mayWrite: boolean }) {
  const look =
    "inline-flex min-h-6 items-center text-brass underline underline-offset-4 pointer-coarse:min-h-12";
  return (
    <p className="my-3 flex flex-wrap gap-x-6 text-[15px] print:hidden">
      <a
        className={look}
        download
        href={`/api/s/${slug}/packages/${found.id}/export?revision=${found.shown?.number}`}
      >
        Save as a file
      </a>
      {mayWrite && (
        <Link className={look} href={`/s/${slug}/packages/${found.id}/write`}>
          Write it as text
        </Link>
      )}
      <Link className={look} href={`/s/${slug}/packages/${found.id}/effects`}>
        What it does here
      </Link>
      <Link className={look} href={`/s/${slug}/packages/${found.id}/minutes`}>
        What it takes here
      </Link>
    </p>
  );
}

function Revisions({ slug, found }: { slug: string; found: PackageView }) {
  return (
    <Section title="Revisions">
      <ul className="flex flex-wrap gap-x-5 gap-y-1">
        {found.revisions.map((r) => (
          <li key={r.number}>
            <Link
              href={`/s/${slug}/packages/${found.id}?revision=${r.number}`}
              aria-current={r.number === found.shown?.number ? "page" : undefined}
              className="inline-flex min-h-6 items-center text-brass underline underline-offset-4 aria-[current]:font-bold aria-[current]:text-ink aria-[current]:no-underline pointer-coarse:min-h-12"
            >
              {r.number}
              {r.state === "draft" && " (draft)"}
            </Link>
          </li>
        ))}
      </ul>
    </Section>
  );
}
