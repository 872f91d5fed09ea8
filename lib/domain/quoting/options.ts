import type { Choice } from "../packages/choose";
import { changesOf } from "../packages/partOption";
import type { Option } from "../packages/recipe";
import { answeredBy } from "../tuning/complaints";
import type { Observation } from "../tuning/rideTypes";
import { observedText } from "../tuning/symptoms";
import type { TargetSheet } from "../tuning/targetTypes";
import { workOf } from "./composeWorks";
import type { QuoteFacts } from "./facts";
import type { QuotePart } from "./parts";
import { jetSize } from "./target";

export interface OptionView {
  readonly key: string;
  readonly name: string;
  readonly plain: string;
  readonly roadUse: boolean;
  readonly ticked: boolean;
  /** Follows from the other ticks: cannot be taken off. */
  readonly forced: boolean;
  /** Cannot be ticked now. A group's other options are not: ticking one replaces its present choice. */
  readonly forbidden: boolean;
  readonly because: string;
  readonly minutes: number;
  /** Chosen jet sizes, "142.5", where the option fits a jet and is ticked. */
  readonly size: string;
  /** Complaints of the bike's intake that it answers, in words. */
  readonly answers: readonly string[];
  /** The same as they were observed, to be said in another language. */
  readonly answered: readonly Observation[];
  readonly notes: readonly { readonly text: string; readonly short: boolean }[];
}

export interface GroupView {
  readonly key: string;
  readonly name: string;
  readonly choose: "exactly one" | "at most one" | "any";
  readonly options: readonly OptionView[];
  /** Key of the work it is of; absent where the quote is one package. */
  readonly work?: string;
}

/** The package's options in their groups, each with what the present ticks say of it. */
export function groupViews(
  facts: QuoteFacts,
  choice: Choice,
  sheet: TargetSheet | null,
  parts: readonly QuotePart[],
): GroupView[] {
  return facts.recipe.groups.map((group) => ({
    ...group,
    ...(facts.works ? { work: workOf(facts.works, group.key) } : {}),
    options: facts.recipe.options
      .filter((o) => o.group === group.key)
      .map((o) => view(facts, o, choice, sheet, parts)),
  }));
}

function view(
  facts: QuoteFacts,
  option: Option,
  choice: Choice,
  sheet: TargetSheet | null,
  parts: readonly QuotePart[],
): OptionView {
  const forced = choice.forced.find((f) => f.option === option.key);
  const forbidden = choice.forbidden.find((f) => f.option === option.key);
  const ticked = choice.chosen.includes(option.key);
  const mine = ticked ? parts.filter((p) => p.option === option.key) : [];
  const warnings = choice.warnings.filter((w) => w.option === option.key);
  const answered = answeredBy({ ...option, changes: changesOf(option) }, facts.complaints ?? []);
  return {
    key: option.key,
    name: option.name,
    plain: option.plain,
    roadUse: option.roadUse,
    ticked,
    forced: forced !== undefined,
    forbidden: forbidden !== undefined && forbidden.by !== "group",
    because: forced?.because ?? forbidden?.because ?? "",
    minutes: facts.recipe.operations
      .filter((o) => option.operations.includes(o.key))
      .reduce((sum, o) => sum + o.minutes, 0),
    answers: answered.map(observedText),
    answered,
    size: ticked ? sizeOf(option, sheet) : "",
    notes: [
      ...mine
        .filter((p) => p.setting !== null || p.shortMilli > 0)
        .map((p) => ({
          text: p.setting === null ? `${p.name}: ${p.note}` : p.note,
          short: p.shortMilli > 0,
        })),
      ...warnings.map((w) => ({ text: w.because, short: true })),
    ],
  };
}

/** The sizes a jet option comes to, carburettor by carburettor, said once where they agree. */
function sizeOf(option: Option, sheet: TargetSheet | null): string {
  const need = option.parts.find((p) => p.kind === "jet");
  if (!need || !sheet) return "";
  const sizes = sheet.carburettors.map((c) => jetSize(c, need.setting)).filter((s) => s !== undefined);
  return [...new Set(sizes)].join(" / ");
}
