import { Caution } from "@/app/_ui/Caution";
import { minutesText } from "@/app/_ui/format";
import { Section } from "@/app/_ui/Section";
import type { HoldPoint } from "@/lib/domain/packages/recipe";
import type { PlannedStep } from "@/lib/domain/plan/plan";

function holdText({ kind, name, low, high, unit = "" }: HoldPoint): string {
  if (kind === "signature") return `Signed for: ${name}`;
  if (low !== undefined && high !== undefined) return `Read off: ${name}, ${low} to ${high} ${unit}`.trim();
  if (low !== undefined) return `Read off: ${name}, at least ${low} ${unit}`.trim();
  if (high !== undefined) return `Read off: ${name}, at most ${high} ${unit}`.trim();
  return `Read off: ${name}`;
}

/** The card that a mechanic will hold, step by step, with what is ticked from the start. */
export function CardReading({ steps, minutes }: { steps: readonly PlannedStep[]; minutes: number }) {
  return (
    <Section title={`What the card says · ${minutesText(minutes, "min", "h")}`}>
      <ol>
        {steps.map((step) => (
          <li key={steps.indexOf(step)} className="border-hair border-b py-2">
            <p className="flex justify-between gap-4">
              <strong>{step.name}</strong>
              <span className="whitespace-nowrap font-mono">{step.minutes} min</span>
            </p>
            {step.cautions.map((caution) => (
              <Caution key={caution} title={caution} />
            ))}
            {step.instruction && <p className="whitespace-pre-line text-[15px]">{step.instruction}</p>}
            {step.holdPoints.map((hold) => (
              <p key={hold.name} className="text-[14px] text-soft">
                {holdText(hold)}
              </p>
            ))}
            {step.checks.map((check) => (
              <p key={check} className="text-[14px] text-soft">
                Checked on closing: {check}
              </p>
            ))}
          </li>
        ))}
      </ol>
    </Section>
  );
}
