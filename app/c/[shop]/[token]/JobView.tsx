import { notFound } from "next/navigation";
import type { ReactNode } from "react";
import { checkTexts } from "@/app/_documents/handoverTexts";
import { Facts } from "@/app/_ui/Facts";
import { instantText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { handedOver } from "@/lib/data/papers/handedOver";
import { jobProgress } from "@/lib/data/papers/progress";
import type { OpenedLink } from "@/lib/gate/customer";
import { wordsIn } from "@/lib/words/words";
import { Dealings } from "./Dealings";

const STEP = {
  done: { shape: "filled", tone: "pine" },
  skipped: { shape: "dash", tone: "soft" },
  todo: { shape: "circle", tone: "soft" },
} as const;

/** While the work is to come or goes on, a yes to more of it is thanked for. */
const UNDER_WAY: ReadonlySet<string> = new Set(["waiting", "booked", "inWork", "ride"]);

interface Props {
  link: OpenedLink;
  jobId: number;
  /** The page's own address. */
  path: string;
  foot: ReactNode;
  /** True on the page of the quote that became this job. */
  accepted?: boolean;
}

/** How far a customer's job is: in a sentence, then by what was agreed, what is to pay, and what goes home with the bike. */
export async function JobView({ link, jobId, path, foot, accepted = false }: Props) {
  const job = await jobProgress(link.shop, jobId);
  if (!job) notFound();
  const { locale } = link;
  const say = wordsIn(locale);
  const at = (when: Date) => instantText(when.toISOString(), locale, job.shop.zone);
  const next = job.state === "booked" ? job.bookings[0] : undefined;
  const finished = job.finishedAt !== null && job.state !== "cancelled";
  const end = finished ? await handedOver(link.shop, jobId) : null;
  const checks = end ? checkTexts(end.checks, { locale, units: end.units }) : [];
  return (
    <main className="mx-auto max-w-[40rem] px-5 pt-6 pb-16">
      <p className="text-[15px] text-soft">{job.shop.name}</p>
      <h1 className="mt-1 border-ink border-b-2 pb-2 font-bold text-[26px] leading-tight">
        {say("jobPage.title", { title: job.title, bike: job.bike })}
      </h1>
      <p className="mt-3 text-[19px]">
        {say(job.state === "booked" && job.arrivedAt ? "jobPage.here" : `jobPage.${job.state}`)}
      </p>
      <p className="mt-1 mb-6 text-[15px] text-soft">
        {say("jobPage.number", { number: String(job.number) })}
        {job.state === "inWork" &&
          `, ${say("jobPage.progress", { done: String(job.done), steps: job.steps })}`}
      </p>
      {accepted && UNDER_WAY.has(job.state) && (
        <Section title={say("links.accepted")}>
          <p>{say(job.state === "waiting" ? "links.acceptedText" : "links.acceptedAdded")}</p>
        </Section>
      )}
      {next && (
        <Section title={say("jobPage.when")}>
          {!job.arrivedAt && (
            <p>
              {next.dropOffAt
                ? say("jobPage.bringAt", { when: at(next.dropOffAt) })
                : say("jobPage.bringBefore", { when: at(next.startsAt) })}
            </p>
          )}
          <p>{say("jobPage.begins", { when: at(next.startsAt) })}</p>
          {next.pickUpAt && <p>{say("jobPage.readyAbout", { when: at(next.pickUpAt) })}</p>}
          {!job.arrivedAt && (
            <p className="mt-2">
              <strong>{say("jobPage.bring")}:</strong> {say("jobPage.bringText")}
            </p>
          )}
          <p className="mt-3">
            <LinkButton href={`${path}/calendar`} download>
              {say("jobPage.calendar")}
            </LinkButton>
          </p>
        </Section>
      )}
      <Dealings link={link} jobId={jobId} path={path} />
      {finished && (
        <Section title={say("jobPage.settingsNow")}>
          <p className="mb-3">{say("jobPage.handover")}</p>
          {checks.length > 0 && (
            <div className="mb-3">
              <Facts rows={checks.map(({ what, said }) => ({ key: what, name: what, value: said }))} />
            </div>
          )}
          <LinkButton href={`${path}/handover`} download>
            {say("jobPage.handoverPdf")}
          </LinkButton>
          <p className="mt-3">
            <LinkButton tone="quiet" href={`${path}/runs`}>
              {say("runsPage.ask")}
            </LinkButton>
          </p>
        </Section>
      )}
      {job.work.length > 0 && (
        <Section title={say("jobPage.work")}>
          <ul>
            {job.work.map((step, index) => {
              const { shape, tone } = STEP[step.state];
              return (
                <li
                  // biome-ignore lint/suspicious/noArrayIndexKey: two steps may share a name, and the list does not reorder
                  key={index}
                  className="flex items-baseline justify-between gap-4 border-hair border-b py-2"
                >
                  <span>{step.name}</span>
                  <State shape={shape} tone={tone}>
                    {say(`jobPage.${step.state}`)}
                  </State>
                </li>
              );
            })}
          </ul>
        </Section>
      )}
      {foot}
    </main>
  );
}
