import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { keptAs } from "@/app/_ui/offline/keptAs";
import { Shape } from "@/app/_ui/Shape";
import { State } from "@/app/_ui/State";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { fetchText } from "@/lib/schemas/bins";
import { dueText } from "@/lib/schemas/dueWords";
import { quantityText } from "@/lib/schemas/quantity";
import { takePart } from "../../actions";
import type { StepActsProps } from "./PassAndParts";

/** What is known of when a missing part comes. */
function comes(dueOn: string | null, today: string, locale: string): string {
  if (dueOn === null) return "not on order";
  return dueOn === "unknown" ? "on order, no day known" : dueText(dueOn, today, locale);
}

/** The parts of a step: one tap uses what the job holds of each. */
export function CardParts({ step, card, slug, mayUse, locale }: Omit<StepActsProps, "away">) {
  const { id: jobId, today } = card;
  const parts = [...step.parts, ...card.looseParts];
  if (parts.length === 0) return null;
  return (
    <ul className="mt-1">
      {parts.map((one) => {
        const { part } = one;
        return (
          <li key={one.id} className="flex items-center justify-between gap-4 border-hair border-b py-1.5">
            <span className="min-w-0">
              {part.name} <span className="font-mono text-[14px] text-soft">{part.code}</span>
              {one.reservedMilli > 0 && (
                <span className="block font-mono text-[14px] text-soft">{fetchText(part)}</span>
              )}
              {one.shortMilli > 0 && (
                <span className="block text-[14px] text-oxide">
                  {quantityText(one.wantedMilli, part.unit)} wanted, {quantityText(one.shortMilli, part.unit)}{" "}
                  missing, {comes(one.dueOn, today, locale)}.{" "}
                  <Link
                    href={`/s/${slug}/stock/${part.id}`}
                    className="inline-flex min-h-6 items-center text-brass underline underline-offset-4 pointer-coarse:min-h-12"
                  >
                    Who waits for it<span className="sr-only">: {part.name}</span>
                  </Link>
                </span>
              )}
            </span>
            {one.reservedMilli > 0 && mayUse ? (
              <Form
                action={takePart}
                shop={slug}
                hidden={{
                  reservationId: String(one.id),
                  quantityMilli: String(one.reservedMilli),
                  stepId: String(step.id),
                  ...keptAs("takePart", jobId, `Used: ${part.name} ${part.code}`),
                }}
                className="flex-none"
                label={`Use ${part.name}`}
              >
                <SubmitButton tone="quiet" className="gap-1.5">
                  <Shape shape="square" tone="brass" /> use {quantityText(one.reservedMilli, part.unit)}
                </SubmitButton>
              </Form>
            ) : one.shortMilli > 0 ? (
              <State shape="diamond" tone="oxide">
                short of {quantityText(one.shortMilli, part.unit)}
              </State>
            ) : one.reservedMilli > 0 ? (
              <State shape="square">{quantityText(one.reservedMilli, part.unit)} reserved</State>
            ) : (
              <State shape="filled">{quantityText(one.usedMilli, part.unit)} used</State>
            )}
          </li>
        );
      })}
    </ul>
  );
}
