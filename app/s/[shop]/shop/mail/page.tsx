import { Empty } from "@/app/_ui/Empty";
import { Instant } from "@/app/_ui/Instant";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { State } from "@/app/_ui/State";
import { listMail } from "@/lib/data/mail/list";
import { mayOpenEnclosed as opens } from "@/lib/gate/enclosed";
import { askedId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { MailText } from "./MailText";
import { ReleaseAllMail, ReleaseMail } from "./ReleaseMail";
import { RetryMail } from "./RetryMail";

const STATES = {
  sent: "sent",
  waiting: "waiting",
  sending: "being sent",
  failed: "not sent",
  held: "held back",
} as const;
const SHAPES = { sent: "filled", waiting: "circle", failed: "triangle", held: "dash" } as const;

export default async function MailPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<{ before?: string }>;
}) {
  const { shop: slug } = await params;
  const { before } = await searchParams;
  const shop = await open("quote.send", slug);
  const { rows, next, held } = await listMail(shop, askedId(before));
  const mayRelease = shop.can("shop.write");
  return (
    <>
      <PageHead
        of={shop.name}
        title="Mail"
        sub="Without a mail server the mails wait here, to be copied and sent by hand. One that does not go is tried again for four days, at growing distances."
      />
      {held > 0 && (
        <Note title={`${held === 1 ? "One mail is" : `${held} mails are`} held back.`}>
          <p>
            This shop was opened as a copy, and the one it was copied from sends them. Letters that the server
            writes by itself are off here too (Shop &gt; Letters, Reminders and Settings).
          </p>
          {mayRelease && <ReleaseAllMail shop={slug} />}
        </Note>
      )}
      {rows.length === 0 && <Empty title="No mails yet" text="Sending a quote or a booking writes one." />}
      <ul className="max-w-[820px]">
        {rows.map((row) => (
          <li key={row.id} className="border-hair border-b py-3">
            <div className="flex flex-wrap items-baseline justify-between gap-x-6">
              <strong>{row.subject}</strong>
              <State
                shape={SHAPES[row.state as keyof typeof SHAPES] ?? "dash"}
                tone={row.state === "failed" ? "oxide" : undefined}
              >
                {STATES[row.state as keyof typeof STATES] ?? row.state}
              </State>
            </div>
            <div className="text-soft">
              to {row.to},{" "}
              <Instant
                at={row.createdAt.toISOString()}
                locale={shop.settings.locale}
                zone={shop.settings.zone}
              />
            </div>
            {row.state === "held" && (
              <div className="flex flex-wrap items-baseline gap-x-5">
                <span>{row.failure}</span>
                {mayRelease && <ReleaseMail shop={slug} id={row.id} subject={row.subject} />}
              </div>
            )}
            {row.failure && row.state !== "sent" && row.state !== "held" && (
              <div className="flex flex-wrap items-baseline gap-x-5">
                <span>
                  Tried {row.tries === 1 ? "once" : `${row.tries} times`}: {row.failure}{" "}
                  {row.state === "waiting" && row.nextAt && (
                    <>
                      Next try after{" "}
                      <Instant
                        at={row.nextAt.toISOString()}
                        locale={shop.settings.locale}
                        zone={shop.settings.zone}
                      />
                      .
                    </>
                  )}
                </span>
                {row.state !== "sending" && <RetryMail shop={slug} id={row.id} subject={row.subject} />}
              </div>
            )}
            {row.enclosed.length > 0 && (
              <ul aria-label={`Goes with ${row.subject}`} className="flex flex-wrap gap-x-5">
                {row.enclosed.map((one) => (
                  <li key={one.id}>
                    {opens(shop, one.noun) ? (
                      <LinkButton tone="quiet" download href={`/api/s/${slug}/attachments/${one.id}`}>
                        {one.name}
                      </LinkButton>
                    ) : (
                      one.name
                    )}
                  </li>
                ))}
              </ul>
            )}
            <MailText text={row.text} />
          </li>
        ))}
      </ul>
      {next && (
        <LinkButton href={`/s/${slug}/shop/mail?before=${next}`} tone="second" className="mt-4">
          Older
        </LinkButton>
      )}
    </>
  );
}
