import { minutesText } from "@/app/_ui/format";
import type { QuotePage } from "@/lib/data/quotes/get";
import type { GroupView, OptionView } from "@/lib/domain/quoting/options";
import type { TickGroup } from "../OptionTicks";

type Draft = NonNullable<QuotePage["draft"]>;

export interface ChosenShown {
  readonly key: string;
  readonly name: string;
  readonly about: string;
  readonly answers: readonly string[];
  readonly figure: string;
}

export interface ChoicesShown {
  readonly title: string;
  readonly groups: readonly TickGroup[];
  /** For those who may not change it: what is ticked. */
  readonly chosen: readonly ChosenShown[];
  /** Settings are computed, which are a starting point. */
  readonly starting: boolean;
  readonly road: boolean;
}

/** What can be ticked, as it stands. */
export function choicesShown(quote: QuotePage, draft: Draft, mayWrite: boolean): ChoicesShown {
  // A work that is no package has nothing to choose.
  const packages = new Set(quote.works.filter((work) => work.kind === "package").map((work) => work.key));
  const ticked = draft.groups.filter((group) => packages.has(group.work ?? ""));
  return {
    title: worksTitle(quote.works),
    groups: mayWrite ? ticked.map((group) => tickGroup(group, quote.works)) : [],
    chosen: mayWrite
      ? []
      : draft.groups.flatMap((group) => group.options.filter((o) => o.ticked).map(chosen)),
    starting: draft.target.sheet !== null,
    road: draft.acknowledgements.includes("road-use"),
  };
}

/** What stands over the options: the one package with its revision, or that there are several works. */
function worksTitle(works: QuotePage["works"]): string {
  const [only, ...others] = works;
  return only?.kind === "package" && others.length === 0
    ? `${only.name}, revision ${only.revision}`
    : "What is chosen";
}

const HOW = { "exactly one": "one of these", "at most one": "one at most", any: "" } as const;

function tickGroup(group: GroupView, works: QuotePage["works"]): TickGroup {
  const packages = works.filter((work) => work.kind === "package");
  const work = packages.length > 1 ? packages.find((one) => one.key === group.work) : undefined;
  return {
    work: work?.name ?? "",
    choose: group.choose,
    key: group.key,
    name: group.name,
    how: HOW[group.choose],
    options: group.options.map((o) => ({
      key: o.key,
      name: o.name,
      plain: o.plain,
      ticked: o.ticked,
      fixed: o.forced || o.forbidden,
      because: o.because,
      figure: figureOf(o),
      notes: [...o.answers.map((text) => ({ text: `Answers: ${text}`, short: false })), ...o.notes],
    })),
  };
}

function figureOf(o: OptionView): string {
  if (o.forbidden) return "–";
  return o.size || (o.minutes > 0 ? minutesText(o.minutes, "min", "h") : "");
}

const chosen = (o: OptionView): ChosenShown => ({
  key: o.key,
  name: o.name,
  about: o.because || o.plain,
  answers: o.answers,
  figure: figureOf(o),
});
