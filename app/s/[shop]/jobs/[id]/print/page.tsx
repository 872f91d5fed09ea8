import { notFound } from "next/navigation";
import { dateText, figureText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Paper } from "@/app/_ui/Paper";
import { Section } from "@/app/_ui/Section";
import { type CardStep, getCard } from "@/lib/data/jobs/card";
import { getJob } from "@/lib/data/jobs/get";
import { proceduresOfCard } from "@/lib/domain/procedures/procedures";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { fetchText } from "@/lib/schemas/bins";
import { quantityText } from "@/lib/schemas/quantity";
import { WAIT_WORDS, type WaitReason } from "@/lib/schemas/waits";
import { ProcedureBody } from "../../../_procedures/ProcedureBody";
import { PrintButton } from "../PrintButton";
import { paperOf } from "../paper";
import { SheetTable } from "../SheetTable";

export default async function PrintedCard({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("job.read", slug);
  const jobId = pathId(id);
  const [card, job] = await Promise.all([getCard(shop, jobId), getJob(shop, jobId)]);
  if (!card || !job) notFound();
  const tools = [...new Set(card.steps.flatMap((step) => step.tools))];
  return (
    <Paper size={paperOf(shop.settings.country)}>
      <title>{`Job ${card.number} · ${shop.name}`}</title>
      <div className="mb-4 flex gap-2.5 print:hidden">
        <LinkButton href={`/s/${slug}/jobs/${card.id}`}>Back to the job</LinkButton>
        <PrintButton />
      </div>
      <header className="mb-4 flex items-end justify-between gap-4 border-ink border-b-2 pb-2">
        <div>
          <h1 className="font-bold text-[26px] leading-tight">Job {card.number}</h1>
          <p>
            {job.bike.name}, {card.customer.name}
          </p>
        </div>
        <p className="text-end">
          <strong>{shop.settings.name}</strong>
          <br />
          {card.title}, <span className="font-mono">{job.minutes}</span> min
        </p>
      </header>
      {card.wait && (
        <p className="mb-3 font-semibold">
          Waits for {WAIT_WORDS[card.wait.reason as WaitReason]}
          {card.wait.untilOn && `, until ${dateText(card.wait.untilOn, shop.settings.locale)}`}
          {card.wait.note && `: ${card.wait.note}`}
        </p>
      )}
      {card.complaint && <p className="mb-3">Complaint: {card.complaint}</p>}
      {tools.length > 0 && <p className="mb-3">Tools: {tools.join(", ")}</p>}
      <Section title="In this order">
        <ol>
          {card.steps.map((step) => (
            <li
              key={step.id}
              className="keep grid grid-cols-[1.5rem_2rem_minmax(0,1fr)_4rem] gap-x-2 border-hair border-b py-2"
            >
              <Box ticked={step.state === "done"} />
              <span className="font-mono">{step.position}</span>
              <div>
                <p className="font-semibold">{step.name}</p>
                {step.instruction && <p>{step.instruction}</p>}
                {step.cautions.map((caution) => (
                  <p key={caution}>▲ {caution}</p>
                ))}
                {step.settings.map(({ def, carburettor, from, to }) => (
                  <p key={`${carburettor} ${def.key}`} className="font-semibold">
                    {def.name}
                    {carburettor > 1 && `, carburettor ${carburettor}`}:{" "}
                    <span className="font-mono">
                      {to === null ? "________" : figureText(to, shop.settings.locale, def.decimals)}
                    </span>{" "}
                    {def.unit}
                    {from !== null && `, found ${figureText(from, shop.settings.locale, def.decimals)}`}
                  </p>
                ))}
                <Held step={step} />
                {step.notes.map((note) => (
                  <p key={note.id} className="whitespace-pre-line">
                    Note{note.by && `, ${note.by}`}: {note.text}
                  </p>
                ))}
                {step.parts.map((one) => (
                  <p key={one.id}>
                    Part: {one.part.name} <span className="font-mono">{one.part.code}</span>,{" "}
                    {quantityText(one.wantedMilli, one.part.unit)}
                    {one.reservedMilli > 0 && fetchText(one.part) && `, ${fetchText(one.part)}`}
                  </p>
                ))}
              </div>
              <span className="text-end font-mono">{step.minutes} min</span>
            </li>
          ))}
        </ol>
      </Section>
      <Section title="Settings">
        <SheetTable sheets={job.sheets} locale={shop.settings.locale} />
      </Section>
      {proceduresOfCard(card.steps).map((one) => (
        <Section key={one.id} title={`How it is measured: ${one.name}`} className="keep">
          <ProcedureBody procedure={one} />
        </Section>
      ))}
    </Paper>
  );
}

function Held({ step }: { step: CardStep }) {
  return step.holdPoints.map((hold) => (
    <p key={hold.id} className="flex items-baseline gap-2">
      <Box ticked={hold.passed} />
      <span>
        {hold.name}
        {hold.kind === "reading" && (
          <>
            : {hold.readings[0]?.value ?? "________"} {hold.unit} ({hold.low ?? "…"} to {hold.high ?? "…"})
          </>
        )}
        {hold.kind === "signature" && ": signed ________"}
      </span>
    </p>
  ));
}

function Box({ ticked }: { ticked: boolean }) {
  return (
    <svg
      role="img"
      aria-label={ticked ? "done" : "to do"}
      width="14"
      height="14"
      className="flex-none translate-y-1"
    >
      <rect
        x="1"
        y="1"
        width="12"
        height="12"
        fill={ticked ? "currentColor" : "none"}
        stroke="currentColor"
        strokeWidth="1.5"
      />
    </svg>
  );
}
