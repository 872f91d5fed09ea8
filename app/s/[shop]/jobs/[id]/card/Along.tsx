import { Link } from "@/app/_ui/Link";
import { StepBar } from "@/app/_ui/StepBar";
import type { CardHead } from "./shown";

/** How far the card is, and which step is looked at. */
export function Progress({ card, at }: { card: CardHead; at: number }) {
  const done = card.steps.filter((step) => step.state !== "todo").length;
  return (
    <StepBar
      label={`${done} of ${card.steps.length} steps done`}
      steps={card.steps.map((step) => ({
        minutes: step.minutes,
        state: step.position === at ? "now" : step.state === "todo" ? "ahead" : "done",
      }))}
    />
  );
}

/** The steps before and after. */
export function Beside({ card, at, here }: { card: CardHead; at: number; here: string }) {
  const index = card.steps.findIndex((step) => step.position === at);
  const [before, after] = [card.steps[index - 1], card.steps[index + 1]];
  const look = "in-line text-brass";
  return (
    <nav
      aria-label="Steps"
      className="mt-4 flex justify-between gap-4 border-hair border-t pt-1 print:hidden"
    >
      {before ? (
        <Link className={look} href={`${here}/card?step=${before.position}`}>
          Before: {before.name}
        </Link>
      ) : (
        <span />
      )}
      {after && (
        <Link className={`${look} text-end`} href={`${here}/card?step=${after.position}`}>
          After: {after.name}
        </Link>
      )}
    </nav>
  );
}
