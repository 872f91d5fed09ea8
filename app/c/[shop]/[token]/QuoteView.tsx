import { notFound } from "next/navigation";
import type { ReactNode } from "react";
import { QuoteReading } from "@/app/_documents/QuoteReading";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import type { Chosen } from "@/lib/data/quotes/offered";
import { type ShownQuote, shownQuote } from "@/lib/data/quotes/shown";
import type { OpenedLink } from "@/lib/gate/customer";
import { wordsIn } from "@/lib/words/words";
import { Answer } from "./Answer";
import { Ask } from "./Ask";
import { FoundPhotos } from "./FoundPhotos";
import { JobView } from "./JobView";
import { Plain } from "./Plain";

interface Props {
  link: OpenedLink;
  token: string;
  /** The alternative and the extras of the address. */
  chosen: Chosen;
  foot: ReactNode;
}

/** A quote as its customer reads it: what is done, what it changes, what it costs, and a place to say yes or no. */
export async function QuoteView({ link, token, chosen, foot }: Props) {
  if (link.revisionId === null) notFound();
  const { locale } = link;
  const say = wordsIn(locale);
  const path = `/c/${link.shop.slug}/${token}`;
  const found = await shownQuote(link.shop, link.revisionId, chosen, locale);
  if (!found)
    return (
      <Plain title={say("links.changed")} foot={foot}>
        {say("links.changedText")}
      </Plain>
    );
  // Once it is agreed the same address goes on as the job's.
  if (found.state === "accepted" && found.jobId !== null)
    return <JobView link={link} jobId={found.jobId} path={path} foot={foot} accepted />;
  if (found.state !== "sent") return <Answered state={found.state} locale={locale} foot={foot} />;
  const quote: ShownQuote = { ...found, printed: { ...found.printed, locale } };
  return (
    <main className="mx-auto max-w-[40rem] px-5 pt-6 pb-16">
      <QuoteReading
        quote={quote}
        path={path}
        heading="h1"
        found={<FoundPhotos link={link} token={token} />}
        wide="lg:-mx-40"
      >
        <Altered quote={quote} />
      </QuoteReading>
      <p className="mb-6">
        <LinkButton href={`${path}/pdf`} download>
          {say("quotePage.keepPdf")}
        </LinkButton>
      </p>
      <Ask slug={link.shop.slug} token={token} quote={quote} />
      <Answer slug={link.shop.slug} token={token} quote={quote} />
      {foot}
    </main>
  );
}

/** The address can be typed and changed: what it asked for and is not there is said, and nothing else happens. */
function Altered({ quote: { strayed, leftOut, refused, printed } }: { quote: ShownQuote }) {
  const say = wordsIn(printed.locale);
  return (
    <>
      {refused && (
        <Note title={refused.message}>
          {refused.remedy} {say("quotePage.seenAsSent")}
        </Note>
      )}
      {strayed && <Note title={say("quotePage.askedStrayed")}>{say("quotePage.askedStrayedText")}</Note>}
      {leftOut.length > 0 && (
        <Note title={say("quotePage.leftOut")}>
          {say("quotePage.leftOutText", { names: leftOut.join(", ") })}
        </Note>
      )}
    </>
  );
}

interface AnsweredProps {
  state: ShownQuote["state"];
  locale: string;
  foot: ReactNode;
}

/** A quote that was declined, has run out or was changed tells no more of itself. */
function Answered({ state, locale, foot }: AnsweredProps) {
  const say = wordsIn(locale);
  const [title, text] =
    state === "declined"
      ? [say("links.declined"), say("links.declinedText")]
      : state === "expired"
        ? [say("links.expired"), say("links.expiredText")]
        : [say("links.changed"), say("links.changedText")];
  return (
    <Plain title={title} foot={foot}>
      {text}
    </Plain>
  );
}
