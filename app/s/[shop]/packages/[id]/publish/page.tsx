import { notFound } from "next/navigation";
import { WorksDone } from "@/app/_documents/WorksDone";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { getPackage, type PackageView, type RevisionView } from "@/lib/data/packages/get";
import { readingOf } from "@/lib/data/packages/reading";
import { askedId, pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { wordsIn } from "@/lib/words/words";
import { publish } from "../../actions";
import { Problems } from "../Problems";
import { CardReading } from "./CardReading";

interface Props {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ revision?: string }>;
}

/** The step before a draft is published: what customers and the workshop will read of it. */
export default async function Publish({ params, searchParams }: Props) {
  const [{ shop: slug, id }, { revision }] = await Promise.all([params, searchParams]);
  const shop = await open("package.write", slug);
  const found = await getPackage(shop, pathId(id), askedId(revision));
  if (!found?.shown) notFound();
  const { shown } = found;
  const path = `/s/${slug}/packages/${id}`;
  const draft = shown.state === "draft";
  return (
    <>
      <PageHead
        of={shop.name}
        title={`${found.name} as others read it`}
        state={
          draft ? (
            <State shape="circle">{`Revision ${shown.number}, draft`}</State>
          ) : (
            <State shape="filled" tone="pine">{`Revision ${shown.number}, published`}</State>
          )
        }
        actions={
          <>
            {draft && <LinkButton href={`${path}/edit`}>Edit the draft</LinkButton>}
            <LinkButton href={path}>To the package</LinkButton>
          </>
        }
      />
      {shown.problems.length > 0 ? (
        <Problems problems={shown.problems} lacks={[]} edit={`${path}/edit`} />
      ) : (
        <Reading found={found} shown={shown} locale={shop.settings.locale} />
      )}
      {draft && shown.problems.length === 0 && (
        <Section title="Publish it">
          <p className="mb-3 max-w-prose">
            New quotes use this revision from then on, and it never changes: a change is a new revision.
            Quotes that are out keep theirs.
          </p>
          <Form
            action={publish}
            shop={slug}
            hidden={{ revisionId: String(shown.id), version: String(shown.version) }}
            label="Publish"
          >
            <SubmitButton>Publish it</SubmitButton>
          </Form>
        </Section>
      )}
    </>
  );
}

function Reading({ found, shown, locale }: { found: PackageView; shown: RevisionView; locale: string }) {
  const { recipe } = shown;
  const { presets, steps, minutes, cautions, roadUse } = readingOf(recipe);
  const say = wordsIn(locale);
  const ticked = recipe.options.filter((option) => presets.includes(option.key));
  const others = recipe.options.filter((option) => !presets.includes(option.key));
  return (
    <div className="grid gap-x-8 rail:grid-cols-2">
      <article
        aria-label="What the customer reads"
        className="mb-6 min-w-0 self-start rounded-[3px] border border-rule bg-paper px-5 pt-5 max-sm:px-3.5"
      >
        <h2 className="mb-4 border-ink border-b-2 pb-2 font-bold text-[22px] leading-tight">{found.name}</h2>
        <Section title={say("quotePage.whatWeDo")}>
          <WorksDone works={undefined} options={ticked} locale={locale} />
        </Section>
        {cautions.length > 0 && (
          <Section title={say("quotePage.goodToKnow")}>
            <ul className="list-disc pl-5">
              {cautions.map((caution) => (
                <li key={caution} className="py-1">
                  {caution}
                </li>
              ))}
            </ul>
          </Section>
        )}
        {roadUse && (
          <Section title={say("answering.readAndTick")}>
            <p>{say("acknowledgement.road-use")}</p>
          </Section>
        )}
        {others.length > 0 && (
          <Section title="Where it is ticked">
            <WorksDone works={undefined} options={others} locale={locale} />
          </Section>
        )}
      </article>
      <CardReading steps={steps} minutes={minutes} />
    </div>
  );
}
