import { minutesText } from "@/app/_ui/format";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import type { QuotePage } from "@/lib/data/quotes/get";
import type { GroupView, OptionView } from "@/lib/domain/quoting/options";
import { VERIFY } from "@/lib/domain/reason";
import type { UnitSystem } from "@/lib/domain/units/systems";
import type { PackageOffer } from "../PackageChoice";
import { ConditionsForm } from "./ConditionsForm";
import { LeftParts } from "./LeftParts";
import { MarginSection } from "./MarginSection";
import { MixtureChart } from "./MixtureChart";
import { NeedleSection } from "./NeedleSection";
import { OptionTicks, type TickGroup } from "./OptionTicks";
import { type Instead, PartsSection } from "./PartsSection";
import { PriceSection } from "./PriceSection";
import { SettingsTable } from "./SettingsTable";
import { TermsForms } from "./TermsForms";
import { Told } from "./Told";
import { Warnings } from "./Warnings";
import { type KitName, WorkList } from "./WorkList";
import { WorkPlanSection } from "./WorkPlanSection";

interface Props {
  slug: string;
  quote: QuotePage;
  draft: NonNullable<QuotePage["draft"]>;
  mayWrite: boolean;
  mayMargin: boolean;
  mayAllow: boolean;
  units: UnitSystem;
  packages: readonly PackageOffer[];
  kits: readonly KitName[];
  instead: Instead;
  mayKeep: boolean;
}

/** A draft quote: ticks at the left, what follows from them at the right, the work along the foot. */
export function DraftView({
  slug,
  quote,
  draft,
  mayWrite,
  mayMargin,
  mayAllow,
  units,
  packages,
  kits,
  instead,
  mayKeep,
}: Props) {
  const { terms } = quote;
  // A work that is no package has nothing to choose.
  const chosen = new Set(quote.works.filter((work) => work.kind === "package").map((work) => work.key));
  const ticked = draft.groups.filter((group) => chosen.has(group.work ?? ""));
  const isSaid = !mayWrite || ticked.length > 0 || draft.warnings.length > 0 || Boolean(quote.intake);
  const roadUse = draft.acknowledgements.includes("road-use");
  return (
    <>
      <div className="grid gap-x-7 rail:grid-cols-[minmax(0,23rem)_minmax(0,1fr)]">
        <div className="min-w-0">
          {mayWrite && (
            <WorkList slug={slug} quote={quote} packages={packages} kits={kits} mayKeep={mayKeep} />
          )}
          {isSaid && (
            <Section id="choices" title={worksTitle(quote.works)}>
              {mayWrite ? (
                <OptionTicks
                  slug={slug}
                  id={quote.id}
                  version={quote.version}
                  groups={ticked.map((group) => tickGroup(group, quote.works))}
                />
              ) : (
                <ReadOnly groups={draft.groups} />
              )}
              {draft.target.sheet && (
                <Note title="Starting point.">
                  {VERIFY.replace(/^Starting point: v/, "V")}
                  {roadUse &&
                    " Road use: emissions and noise rules may apply; the customer acknowledges this when accepting."}
                </Note>
              )}
              {quote.intake && <Told intake={quote.intake} groups={draft.groups} slug={slug} />}
              <Warnings slug={slug} warnings={draft.warnings} />
            </Section>
          )}
        </div>
        <div className="min-w-0">
          <MixtureChart
            quote={quote}
            mixture={draft.mixture}
            marks={quote.intake?.marks ?? []}
            system={units}
          />
          <NeedleSection sheet={draft.target.sheet} locale={terms.locale} />
          <LeftParts sheet={draft.target.sheet} />
          <ConditionsForm slug={slug} quote={quote} mayWrite={mayWrite} system={units} />
          <div className="grid gap-x-7 lg:grid-cols-[minmax(0,1fr)_minmax(0,15rem)]">
            <PriceSection
              price={draft.price}
              works={quote.works}
              savedMinutes={draft.savedMinutes}
              savedAgainst="visits"
              savedMinor={draft.savedMinor}
              depositMinor={draft.depositMinor}
              locale={terms.locale}
              costMinor={mayMargin && draft.price.costKnown ? draft.price.costMinor : null}
            />
            {mayMargin && <MarginSection slug={slug} quote={quote} draft={draft} mayAllow={mayAllow} />}
          </div>
          <PartsSection
            parts={draft.parts}
            ready={draft.ready}
            instead={instead}
            slug={slug}
            locale={terms.locale}
          />
          {mayWrite && <TermsForms slug={slug} quote={quote} draft={draft} />}
          <SettingsTable sheet={draft.target.sheet} locale={terms.locale} />
        </div>
      </div>
      <WorkPlanSection plan={draft.plan} savedMinutes={draft.savedMinutes} />
    </>
  );
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

function ReadOnly({ groups }: { groups: readonly GroupView[] }) {
  const chosen = groups.flatMap((g) => g.options).filter((o) => o.ticked);
  return (
    <ul>
      {chosen.map((o) => (
        <li key={o.key} className="flex justify-between gap-4 border-hair border-b py-2">
          <span>
            <strong>{o.name}</strong>
            <span className="block text-[14px] text-soft">{o.because || o.plain}</span>
            {o.answers.map((answer) => (
              <span key={answer} className="block text-[14px]">
                Answers: {answer}
              </span>
            ))}
          </span>
          <span className="font-mono">{figureOf(o)}</span>
        </li>
      ))}
    </ul>
  );
}
