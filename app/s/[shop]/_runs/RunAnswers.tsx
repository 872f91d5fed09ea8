import { Form } from "@/app/_ui/Form";
import { Instant } from "@/app/_ui/Instant";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { OpenShop } from "@/lib/gate/open";
import { runAnswerWord } from "@/lib/schemas/runAnswers";
import { lookedAt } from "./actions";

interface Answer {
  readonly id: number;
  readonly jobId: number;
  readonly answer: string;
  readonly words: string;
  readonly at: Date;
  readonly seenAt: Date | null;
}

interface Props {
  shop: OpenShop;
  bikeId: number;
  /** Newest first. */
  answers: readonly Answer[];
  /** Each leads to its job: on the bike's page. */
  toJobs?: boolean;
}

/** What the customer answered to how it runs; the newest holds, earlier ones stay to be read. */
export function RunAnswers({ shop, bikeId, answers, toJobs = false }: Props) {
  if (answers.length === 0) return null;
  const { locale, zone } = shop.settings;
  const base = `/s/${shop.slug}`;
  const [newest] = answers;
  const waits = newest?.seenAt === null && shop.can("followUp.write") ? newest : null;
  return (
    <Section id="how-it-runs" title="How it runs">
      <ul>
        {answers.map((one) => (
          <li key={one.id} className="border-hair border-b py-2">
            <p className="flex flex-wrap justify-between gap-x-4">
              <span>
                <strong>{runAnswerWord(one.answer)}</strong>,{" "}
                <Instant at={one.at.toISOString()} locale={locale} zone={zone} />
                {toJobs && (
                  <>
                    ,{" "}
                    <Link
                      href={`${base}/jobs/${one.jobId}`}
                      className="text-brass underline underline-offset-4"
                    >
                      after this job
                    </Link>
                  </>
                )}
              </span>
              {one.id !== newest?.id && <State shape="dash">earlier answer</State>}
              {one.seenAt === null && (
                <State shape="triangle" tone="brass">
                  nobody looked yet
                </State>
              )}
            </p>
            {one.words && <p className="whitespace-pre-line">{one.words}</p>}
          </li>
        ))}
      </ul>
      {waits && (
        <div className="mt-3 flex flex-wrap gap-3">
          <Form
            action={lookedAt}
            shop={shop.slug}
            hidden={{ jobId: String(waits.jobId), upToId: String(waits.id) }}
            label="Look at the answer"
          >
            <SubmitButton tone="second">Looked at</SubmitButton>
          </Form>
          {waits.answer !== "runsWell" && shop.can("job.write") && (
            <LinkButton href={`${base}/jobs/new?bike=${bikeId}&of=${waits.jobId}`}>It comes back</LinkButton>
          )}
        </div>
      )}
    </Section>
  );
}
