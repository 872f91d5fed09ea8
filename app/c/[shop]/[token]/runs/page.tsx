import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { Form } from "@/app/_ui/Form";
import { instantText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import { Note } from "@/app/_ui/Note";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { reachOf } from "@/lib/data/bookings/reach";
import { jobOfLink } from "@/lib/data/papers/ofJob";
import { askedRuns } from "@/lib/data/runAnswers/asked";
import { RUN_ANSWERS } from "@/lib/domain/tuning/runAnswers";
import { openLinkOnce } from "@/lib/gate/customer";
import { RunAnswerAsked } from "@/lib/schemas/runAnswers";
import { wordsIn } from "@/lib/words/words";
import { sayHowItRuns } from "../actions";
import { Foot } from "../Foot";
import { linkMetadata } from "../linkMetadata";

interface Props {
  params: Promise<{ shop: string; token: string }>;
  searchParams: Promise<{ answer?: string | string[] }>;
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const { shop, token } = await params;
  return linkMetadata(await openLinkOnce(shop, token));
}

/**
 * Where the answers of the letter lead: the tapped one is chosen, and sending it is the customer's own act. Opening the page keeps
 * nothing, since programs that look through mail open it too.
 */
export default async function HowItRuns({ params, searchParams }: Props) {
  const [{ shop: slug, token }, { answer }] = await Promise.all([params, searchParams]);
  const link = await openLinkOnce(slug, token);
  if ("closed" in link) notFound();
  const jobId = await jobOfLink(link.shop, link);
  const asked = jobId === null ? null : await askedRuns(link.shop, jobId);
  if (!asked) notFound();
  const { locale } = link;
  const say = wordsIn(locale);
  const { last } = asked;
  const path = `/c/${slug}/${token}`;
  return (
    <main className="mx-auto max-w-[40rem] px-5 pt-6 pb-16">
      <p className="text-[15px] text-soft">{link.shopName}</p>
      <h1 className="mt-1 border-ink border-b-2 pb-2 font-bold text-[26px] leading-tight">
        {say("runsPage.title", { bike: asked.bike })}
      </h1>
      <p className="mt-3 mb-5">
        <Link href={path} className="text-brass underline underline-offset-4">
          {say("runsPage.since", { title: asked.title })}
        </Link>
      </p>
      {last && (
        <Note title={say("runsPage.thanks")}>
          {say("runsPage.before", {
            day: instantText(last.at.toISOString(), locale, asked.zone),
            answer: say(`runsPage.${last.answer}`),
          })}
        </Note>
      )}
      <Form
        key={last?.id}
        action={sayHowItRuns}
        shop={slug}
        hidden={{ _token: token }}
        label={say("runsPage.form")}
      >
        <ChoiceField
          name="answer"
          label={say("runsPage.fits")}
          initial={RunAnswerAsked.parse(answer)}
          options={RUN_ANSWERS.map((value) => ({ value, label: say(`runsPage.${value}`) }))}
        />
        <TextArea
          name="words"
          label={say("runsPage.words")}
          hint={say("runsPage.wordsHint")}
          rows={3}
          maxLength={600}
        />
        <SubmitButton size="act" className="w-full">
          {say("runsPage.send")}
        </SubmitButton>
      </Form>
      <p className="mt-4">{say("runsPage.safe")}</p>
      <Foot reach={await reachOf(link.shop, locale)} locale={locale} path={path} />
    </main>
  );
}
