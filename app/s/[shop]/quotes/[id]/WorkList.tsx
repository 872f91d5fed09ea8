import { Dialog } from "@/app/_ui/Dialog";
import { Fetched } from "@/app/_ui/Fetched";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { liveModule } from "@/app/_ui/liveModule";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { PackageOffer } from "../PackageChoice";
import type { WorkShown } from "./shown/works";
import type { KitName } from "./WorkForms";
import { moveUpOrDown, takeWorkOff } from "./work/actions";

const FORMS = liveModule(() => import("./WorkForms"));

interface Props {
  slug: string;
  /** The quote's id and version. */
  hidden: Readonly<Record<string, string>>;
  works: readonly WorkShown[];
  packages: readonly PackageOffer[];
  kits: readonly KitName[];
  /** May keep a work as a package. */
  mayKeep: boolean;
}

/** The works of a draft in their order: to add, change, move and take off. */
export function WorkList({ slug, hidden, works, packages, kits, mayKeep }: Props) {
  const path = `/s/${slug}/quotes/${hidden.id}/work`;
  const last = works.length - 1;
  return (
    <Section id="works" title="Works" className="print:hidden">
      {works.length === 0 && <p className="mb-3">Nothing is on this quote yet. Add what is to be done.</p>}
      <ol>
        {works.map((work, at) => {
          const mine = { ...hidden, work: work.key };
          return (
            <li key={work.key} className="border-hair border-b py-2">
              <strong>{work.name}</strong>
              <span className="block text-[14px] text-soft">{work.about}</span>
              <div className="mt-1 flex flex-wrap items-center gap-x-3">
                {work.kind === "package" ? null : (
                  <LinkButton href={`${path}?work=${work.key}&kind=${work.kind}`} tone="quiet">
                    Change<span className="sr-only"> {work.name}</span>
                  </LinkButton>
                )}
                {at > 0 && <Move slug={slug} hidden={mine} by="up" name={work.name} />}
                {at < last && <Move slug={slug} hidden={mine} by="down" name={work.name} />}
                <Form action={takeWorkOff} shop={slug} hidden={mine} label={`Take off ${work.name}`}>
                  <SubmitButton tone="quiet">
                    Take off<span className="sr-only"> {work.name}</span>
                  </SubmitButton>
                </Form>
                {work.kind === "written" && mayKeep && (
                  <Dialog trigger="Make this a package" triggerTone="quiet" title={`Keep “${work.name}”`}>
                    <Fetched of={FORMS}>
                      {({ KeepWorkForm }) => <KeepWorkForm slug={slug} hidden={mine} />}
                    </Fetched>
                  </Dialog>
                )}
              </div>
            </li>
          );
        })}
      </ol>
      <div className="mt-3 flex flex-wrap gap-3">
        <LinkButton href={`${path}?kind=written`}>Write a work</LinkButton>
        {packages.length > 0 && (
          <Dialog trigger="Add a package" title="Add a package">
            <Fetched of={FORMS}>
              {({ PackageForm }) => <PackageForm slug={slug} hidden={hidden} packages={packages} />}
            </Fetched>
          </Dialog>
        )}
        <LinkButton href={`${path}?kind=parts`}>Add parts</LinkButton>
        {kits.length > 0 && (
          <Dialog trigger="Add a kit" title="Add a kit">
            <Fetched of={FORMS}>
              {({ KitForm }) => <KitForm slug={slug} hidden={hidden} kits={kits} />}
            </Fetched>
          </Dialog>
        )}
        <LinkButton href={`${path}?kind=text`}>Add a text</LinkButton>
      </div>
    </Section>
  );
}

function Move({
  slug,
  hidden,
  by,
  name,
}: {
  slug: string;
  hidden: Readonly<Record<string, string>>;
  by: "up" | "down";
  name: string;
}) {
  return (
    <Form action={moveUpOrDown} shop={slug} hidden={{ ...hidden, by }} label={`Move ${name} ${by}`}>
      <SubmitButton tone="quiet">
        {by === "up" ? "Up" : "Down"}
        <span className="sr-only"> {name}</span>
      </SubmitButton>
    </Form>
  );
}
