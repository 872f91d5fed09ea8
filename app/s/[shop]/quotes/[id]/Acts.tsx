"use client";
import { Dialog } from "@/app/_ui/Dialog";
import { Fetched } from "@/app/_ui/Fetched";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { liveModule } from "@/app/_ui/liveModule";
import { useScreen } from "@/app/_ui/Screen";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { QuoteStateName } from "@/lib/schemas/quotes";
import { revise } from "../actions";
import type { PackageOffer } from "../PackageChoice";
import type { QuoteScreen } from "./shown/screen";

const FORMS = liveModule(() => import("./ActForms"));

interface Props {
  slug: string;
  quote: {
    readonly id: number;
    readonly number: string;
    readonly state: QuoteStateName;
    readonly revisionNumber: number;
    readonly job: { readonly id: number; readonly number: string } | null;
  };
  packages: readonly PackageOffer[];
}

/** What the desk can do with a quote in its present state, besides sending it. */
export function Acts({ slug, quote, packages }: Props) {
  const version = useScreen((screen: QuoteScreen) => screen.version);
  const hidden = { id: String(quote.id), version: String(version) };
  const path = `/s/${slug}/quotes/${quote.id}`;
  if (quote.state === "accepted")
    return (
      <>
        <LinkButton href={`${path}/proof`}>Proof of the yes</LinkButton>
        {quote.job && (
          <LinkButton
            href={`/s/${slug}/jobs/${quote.job.id}`}
            tone="main"
          >{`To job ${quote.job.number}`}</LinkButton>
        )}
      </>
    );
  if (quote.state === "replaced") return null;
  return (
    <>
      {quote.state === "draft" ? (
        <>
          <LinkButton href={`${path}/preview`} className="self-start">
            As the customer sees it
          </LinkButton>
          <LinkButton href={`${path}/compare`} className="self-start">
            What if
          </LinkButton>
          <LinkButton href={`${path}/alternatives`} className="self-start">
            Side by side
          </LinkButton>
        </>
      ) : (
        <>
          <LinkButton href={`${path}/proof`} className="self-start">
            On paper
          </LinkButton>
          <Form action={revise} shop={slug} hidden={hidden} label="Revise" className="self-start">
            <SubmitButton tone="second" className="w-full">
              Revise
            </SubmitButton>
          </Form>
        </>
      )}
      <Dialog
        trigger="Another package"
        triggerClassName="self-start"
        title={`In place of quote ${quote.number}`}
      >
        <Fetched of={FORMS}>
          {({ ReplaceForm }) => <ReplaceForm slug={slug} hidden={hidden} packages={packages} />}
        </Fetched>
      </Dialog>
      {quote.state === "draft" && quote.revisionNumber === 1 && (
        <Dialog
          trigger="Remove"
          triggerTone="danger"
          triggerClassName="self-start"
          title={`Remove quote ${quote.number}`}
        >
          <Fetched of={FORMS}>{({ RemoveForm }) => <RemoveForm slug={slug} hidden={hidden} />}</Fetched>
        </Dialog>
      )}
      {quote.state === "sent" && (
        <>
          <Dialog
            trigger="They said no"
            triggerClassName="self-start"
            title={`Quote ${quote.number} declined`}
          >
            <Fetched of={FORMS}>{({ DeclineForm }) => <DeclineForm slug={slug} hidden={hidden} />}</Fetched>
          </Dialog>
          <LinkButton href={`${path}/yes`} className="self-start">
            They said yes
          </LinkButton>
        </>
      )}
    </>
  );
}
