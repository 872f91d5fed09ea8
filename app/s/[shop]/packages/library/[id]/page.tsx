import { notFound } from "next/navigation";
import { Form } from "@/app/_ui/Form";
import { Instant } from "@/app/_ui/Instant";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { getEntry } from "@/lib/data/library/read";
import { packagesBehind } from "@/lib/data/packages/offers";
import { procedure } from "@/lib/domain/procedures/procedures";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { retireIt } from "../actions";
import { EntryForm } from "../EntryForm";
import { capital, KIND_WORDS } from "../entryWords";

/** One entry of the library: its form, the packages that still have an earlier text, and when it was changed. */
export default async function Entry({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("package.write", slug);
  const found = await getEntry(shop, pathId(id));
  if (!found) notFound();
  const { entry, active, version } = found;
  const told = entry.kind === "check" ? procedure(entry.procedure ?? "") : undefined;
  const behind = (await packagesBehind(shop)).filter(({ entries }) => entries.includes(entry.key));
  return (
    <>
      <PageHead
        of={shop.name}
        title={entry.name}
        sub={capital(KIND_WORDS[entry.kind].one)}
        state={!active && <State shape="dash">Out of the library</State>}
        actions={
          <>
            <LinkButton href={`/s/${slug}/packages/library`}>To the library</LinkButton>
            <Form
              action={retireIt}
              shop={slug}
              hidden={{ id, version: String(version), active: active ? "no" : "yes" }}
              label="In the library"
            >
              <SubmitButton tone="second">{active ? "Take it out" : "Put it back"}</SubmitButton>
            </Form>
          </>
        }
      />
      {told && (
        <p className="mb-3">
          <Link
            href={`/s/${slug}/bench/procedures/${told.id}`}
            className="inline-flex min-h-6 items-center text-brass underline underline-offset-4 pointer-coarse:min-h-12"
          >
            {`How to: ${told.name}`}
          </Link>
        </p>
      )}
      {behind.length > 0 && (
        <Section title="Packages with an earlier text">
          <ul>
            {behind.map(({ packageId, name }) => (
              <li key={packageId}>
                <Link
                  href={`/s/${slug}/packages/${packageId}/library`}
                  className="inline-flex min-h-6 items-center text-brass underline underline-offset-4 pointer-coarse:min-h-12"
                >
                  {name}
                </Link>
              </li>
            ))}
          </ul>
        </Section>
      )}
      <EntryForm shop={shop} kind={entry.kind} hidden={{ id, version: String(version) }} entry={entry} />
      <Section title="Its texts">
        <ul className="text-[15px]">
          {found.editions.map(({ print, personName, at }) => (
            <li key={print} className="py-0.5">
              <Instant at={at.toISOString()} zone={shop.settings.zone} locale={shop.settings.locale} />
              {` · ${personName}`}
            </li>
          ))}
        </ul>
      </Section>
    </>
  );
}
