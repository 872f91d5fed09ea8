"use client";
import { lazy, type ReactNode, Suspense } from "react";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import { VERIFY } from "@/lib/domain/reason";
import type { PackageOffer } from "../PackageChoice";
import { Conditions } from "./Conditions";
import { MarginSection } from "./MarginSection";
import { MixtureChart } from "./MixtureChart";
import { OptionTicks } from "./OptionTicks";
import { PartsSection } from "./PartsSection";
import { PriceSection } from "./PriceSection";
import { SettingsTable } from "./SettingsTable";
import { TermsForms } from "./TermsForms";
import { useDraft } from "./useDraft";
import type { KitName } from "./WorkForms";
import { WorkList } from "./WorkList";
import { WorkPlanSection } from "./WorkPlanSection";

/** Of drafts that came from an intake. */
const Told = lazy(async () => ({ default: (await import("./Told")).Told }));
/** Of drafts that something stands against. */
const Warnings = lazy(async () => ({ default: (await import("./Warnings")).Warnings }));
/** For whoever may not change it. */
const ChosenOnly = lazy(async () => ({ default: (await import("./ChosenOnly")).ChosenOnly }));

interface Props {
  slug: string;
  mayWrite: boolean;
  mayAllow: boolean;
  mayKeep: boolean;
  packages: readonly PackageOffer[];
  kits: readonly KitName[];
  /** Needles and described parts, drawn by the server. */
  drawn: ReactNode;
}

/** A draft quote: ticks at the left, what follows from them at the right, the work along the foot. */
export function DraftView({ slug, mayWrite, mayAllow, mayKeep, packages, kits, drawn }: Props) {
  const fixed = useDraft((draft) => draft.fixed);
  return (
    <>
      <div className="grid gap-x-7 rail:grid-cols-[minmax(0,23rem)_minmax(0,1fr)]">
        <div className="min-w-0">
          {mayWrite && <Works slug={slug} packages={packages} kits={kits} mayKeep={mayKeep} />}
          <Choices slug={slug} mayWrite={mayWrite} />
        </div>
        <div className="min-w-0">
          <Mixture />
          {drawn}
          {mayWrite && <Air slug={slug} />}
          <div className="grid gap-x-7 lg:grid-cols-[minmax(0,1fr)_minmax(0,15rem)]">
            <Price slug={slug} />
            <Margin slug={slug} mayAllow={mayAllow} />
          </div>
          <Parts slug={slug} />
          {mayWrite && <TermsForms slug={slug} fixed={fixed} />}
          <Settings slug={slug} />
        </div>
      </div>
      <Plan />
    </>
  );
}

function Works(props: Pick<Props, "slug" | "packages" | "kits" | "mayKeep">) {
  const works = useDraft((draft) => draft.works);
  const { hidden } = useDraft((draft) => draft.forms);
  return <WorkList {...props} hidden={hidden} works={works} />;
}

function Choices({ slug, mayWrite }: Pick<Props, "slug" | "mayWrite">) {
  const choices = useDraft((draft) => draft.choices);
  const warnings = useDraft((draft) => draft.warnings);
  const told = useDraft((draft) => draft.told);
  const { hidden } = useDraft((draft) => draft.forms);
  if (mayWrite && choices.groups.length === 0 && warnings.length === 0 && !told) return null;
  return (
    <Section id="choices" title={choices.title}>
      {mayWrite ? (
        <OptionTicks slug={slug} hidden={hidden} groups={choices.groups} />
      ) : (
        <Suspense>
          <ChosenOnly chosen={choices.chosen} />
        </Suspense>
      )}
      {choices.starting && (
        <Note title="Starting point.">
          {VERIFY.replace(/^Starting point: v/, "V")}
          {choices.road &&
            " Road use: emissions and noise rules may apply; the customer acknowledges this when accepting."}
        </Note>
      )}
      {told && (
        <Suspense>
          <Told told={told} slug={slug} />
        </Suspense>
      )}
      {warnings.length > 0 && (
        <Suspense>
          <Warnings slug={slug} warnings={warnings} />
        </Suspense>
      )}
    </Section>
  );
}

function Mixture() {
  const { locale } = useDraft((draft) => draft.fixed);
  return <MixtureChart mixture={useDraft((draft) => draft.mixture)} locale={locale} />;
}

function Air({ slug }: Pick<Props, "slug">) {
  const { hidden } = useDraft((draft) => draft.forms);
  return <Conditions slug={slug} hidden={hidden} air={useDraft((draft) => draft.air)} />;
}

/** Where a draft's figures say what they rest on: of this version, so that they are asked for again after each change. */
function useWhy(slug: string): string {
  const { hidden } = useDraft((draft) => draft.forms);
  return `/api/s/${slug}/quotes/${hidden.id}/reasons?v=${hidden.version}`;
}

function Price({ slug }: Pick<Props, "slug">) {
  const { id } = useDraft((draft) => draft.forms).hidden;
  return (
    <div className="min-w-0">
      <PriceSection price={useDraft((draft) => draft.price)} why={useWhy(slug)} />
      <noscript>
        <p className="mb-6">
          <a href={`/s/${slug}/quotes/${id}/reasons`} className="text-brass underline underline-offset-4">
            What the figures rest on
          </a>
        </p>
      </noscript>
    </div>
  );
}

function Margin({ slug, mayAllow }: Pick<Props, "slug" | "mayAllow">) {
  const margin = useDraft((draft) => draft.margin);
  const { hidden } = useDraft((draft) => draft.forms);
  const { locale } = useDraft((draft) => draft.fixed);
  if (!margin) return null;
  return <MarginSection slug={slug} hidden={hidden} margin={margin} locale={locale} mayAllow={mayAllow} />;
}

function Parts({ slug }: Pick<Props, "slug">) {
  const { locale } = useDraft((draft) => draft.fixed);
  return <PartsSection parts={useDraft((draft) => draft.parts)} slug={slug} locale={locale} />;
}

function Settings({ slug }: Pick<Props, "slug">) {
  return <SettingsTable settings={useDraft((draft) => draft.settings)} why={useWhy(slug)} />;
}

function Plan() {
  return <WorkPlanSection plan={useDraft((draft) => draft.plan)} />;
}
