import { notFound } from "next/navigation";
import { Instant } from "@/app/_ui/Instant";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { type JobProgress, jobProgress } from "@/lib/data/papers/progress";
import type { OpenedLink } from "@/lib/gate/customer";

const SAID: Readonly<Record<JobProgress["state"], string>> = {
  waiting: "We are finding a time and will be in touch.",
  booked: "Your bike has its time.",
  inWork: "Your bike is being worked on.",
  ride: "The work is done; your bike is being ridden and measured.",
  ready: "Your bike is ready. Please call before you come.",
  invoiced: "Your bike is ready and the invoice is written.",
  closed: "This job is finished.",
  cancelled: "This job was cancelled.",
};

const STEP = {
  done: { shape: "filled", word: "done", tone: "pine" },
  skipped: { shape: "dash", word: "not needed", tone: "soft" },
  todo: { shape: "circle", word: "to do", tone: "soft" },
} as const;

/** How far a customer's job is: in a sentence, then by what was agreed. */
export async function JobView({ link, token }: { link: OpenedLink; token: string }) {
  if (link.jobId === null) notFound();
  const job = await jobProgress(link.shop, link.jobId);
  if (!job) notFound();
  const { shop } = job;
  const at = (when: Date) => <Instant at={when.toISOString()} locale={shop.locale} zone={shop.zone} />;
  const next = job.state === "booked" ? job.bookings[0] : undefined;
  return (
    <main className="mx-auto max-w-[40rem] px-5 pt-6 pb-16">
      <p className="text-[15px] text-soft">{shop.name}</p>
      <h1 className="mt-1 border-ink border-b-2 pb-2 font-bold text-[26px] leading-tight">
        {job.title} for your {job.bike}
      </h1>
      <p className="mt-3 text-[19px]">
        {job.state === "booked" && job.arrivedAt
          ? "Your bike is here, waiting for its turn."
          : SAID[job.state]}
      </p>
      <p className="mt-1 mb-6 text-[15px] text-soft">
        Job {job.number}
        {job.state === "inWork" && `, ${job.done} of ${job.steps} steps done`}
      </p>
      {next && (
        <Section title="When">
          {!job.arrivedAt && (
            <p>Bring it {next.dropOffAt ? at(next.dropOffAt) : <>before {at(next.startsAt)}</>}.</p>
          )}
          <p>Work begins {at(next.startsAt)}.</p>
          {next.pickUpAt && <p>Planned to be ready {at(next.pickUpAt)}.</p>}
          <p className="mt-3">
            <LinkButton href={`/c/${link.shop.slug}/${token}/calendar`} download>
              Put it in my calendar
            </LinkButton>
          </p>
        </Section>
      )}
      {job.work.length > 0 && (
        <Section title="The work">
          <ul>
            {job.work.map((step, index) => {
              const { shape, word, tone } = STEP[step.state];
              return (
                <li
                  // biome-ignore lint/suspicious/noArrayIndexKey: two steps may share a name, and the list does not reorder
                  key={index}
                  className="flex items-baseline justify-between gap-4 border-hair border-b py-2"
                >
                  <span>{step.name}</span>
                  <State shape={shape} tone={tone}>
                    {word}
                  </State>
                </li>
              );
            })}
          </ul>
        </Section>
      )}
      <footer className="mt-10 whitespace-pre-line border-rule border-t pt-4 text-[15px] text-soft">
        {[shop.name, shop.address, shop.phone, shop.email].filter(Boolean).join("\n")}
      </footer>
    </main>
  );
}
