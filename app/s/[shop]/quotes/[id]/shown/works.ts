import { minutesText } from "@/app/_ui/format";
import { moneyText } from "@/app/_ui/moneyText";
import type { QuotePage } from "@/lib/data/quotes/get";

type Work = QuotePage["works"][number];

export interface WorkShown {
  readonly key: string;
  readonly kind: Work["kind"];
  readonly name: string;
  readonly about: string;
}

/** The works of a draft in their order. */
export const worksShown = ({ works, terms }: QuotePage): WorkShown[] =>
  works.map((work) => ({ key: work.key, kind: work.kind, name: work.name, about: about(work, terms) }));

function about(work: Work, { currency, locale }: QuotePage["terms"]): string {
  if (work.kind === "package") return `package, revision ${work.revision}`;
  if (work.kind === "text") return "text";
  const parts = `${work.parts.length} ${work.parts.length === 1 ? "part" : "parts"}`;
  if (work.kind === "parts") return parts;
  const minutes = work.steps.reduce((sum, step) => sum + step.minutes, 0);
  return [
    minutes > 0 ? minutesText(minutes, "min", "h") : "",
    work.fixedPriceMinor === undefined ? "" : `at ${moneyText(work.fixedPriceMinor, currency, locale)}`,
    work.parts.length > 0 ? parts : "",
    ...(work.kits ?? []).map((kit) => `${kit.code} at ${moneyText(kit.priceMinor, currency, locale)}`),
    work.outside.length > 0 ? "work from outside" : "",
  ]
    .filter(Boolean)
    .join(", ");
}
