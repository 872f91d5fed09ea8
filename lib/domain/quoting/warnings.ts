import type { Choice } from "../packages/choose";
import type { Refusal } from "../refusal";
import { dayWords } from "../schedule/days";
import type { QuoteFacts } from "./facts";
import { JET_NAMES } from "./jets";
import type { QuotePart } from "./partsWanted";
import type { QuoteWarning } from "./result";
import type { Target } from "./target";

/** What keeps a quote from being sent: options that cannot stand together, work that cannot be planned, grades that the shop lacks. */
export function stops(
  choice: Choice,
  refused: readonly (Refusal | undefined)[],
  grades: readonly string[],
  unset: readonly string[],
): QuoteWarning[] {
  const clash = choice.clash
    ? [
        {
          message: choice.clash.because,
          remedy: "Take one of these options off.",
          stops: true,
          place: "options" as const,
        },
      ]
    : [];
  const missing = choice.missing.map((m) => ({
    message: m.because,
    remedy: "",
    stops: true,
    place: "options" as const,
  }));
  const unable = refused.flatMap((r) =>
    r ? [{ message: r.message, remedy: r.remedy, stops: true, place: "works" as const }] : [],
  );
  const rates = grades.map((code) => ({
    message: `The package prices work at the grade “${code}”, which this shop does not have.`,
    remedy: "Add the grade in the shop's settings, or correct the package.",
    stops: true,
    place: "labour rates" as const,
  }));
  const prices = unset.map((name) => ({
    message: `The price of an hour of ${name} is not set: the shop has entered none yet.`,
    remedy: "An owner sets it under Labour and markup; work stands at nothing until then.",
    stops: true,
    place: "labour rates" as const,
  }));
  return [...clash, ...missing, ...unable, ...rates, ...prices];
}

/** Quotes whose last day is over, or that are valid for longer than their prices are good, and discounts on lines that are gone. */
export function termWarnings(
  { priceBook, validUntil, today, terms }: QuoteFacts,
  stray: readonly string[],
): QuoteWarning[] {
  const { pricesUntil } = priceBook;
  const late =
    today !== null && validUntil !== "" && validUntil < today
      ? [
          {
            message: `The last day of this quote is over: ${dayWords(validUntil, terms.locale)}.`,
            remedy: "Give it a new last day.",
            stops: true,
            place: "terms" as const,
          },
        ]
      : [];
  const over =
    pricesUntil !== null && validUntil > pricesUntil
      ? [
          {
            message: `The shop's prices are good until ${pricesUntil}; this quote is valid until ${validUntil}.`,
            remedy: "Look over the prices, then set the price book's new last day.",
            stops: false,
          },
        ]
      : [];
  return [
    ...late,
    ...over,
    ...stray.map((line) => ({
      message: `A discount was agreed on “${line}”, which is no longer part of this quote.`,
      remedy: "It is not counted: take it off, or tick the option again.",
      stops: false,
    })),
  ];
}

/** What the tuning library could not compute, or only from what was delivered. */
export function targetWarnings(facts: QuoteFacts, { sheet, trouble }: Target): QuoteWarning[] {
  const unmeasured =
    facts.measured || !sheet
      ? []
      : [
          {
            message: "No setting sheet of this bike: the delivered settings stand in for what is fitted.",
            remedy: "Record the as-found settings when the bike is here.",
            stops: false,
          },
        ];
  return [
    ...(trouble ? [{ ...trouble, stops: false }] : []),
    ...unmeasured,
    ...(sheet?.refusals ?? []).map((r) => ({ message: r.message, remedy: r.remedy, stops: false })),
    ...(sheet?.warnings ?? []).map((w) => ({ message: w.message, remedy: w.remedy, stops: false })),
  ];
}

/**
 * Parts that the shop does not have, and jets whose size is settled when they are fitted. `unpriced` are codes of lines that stand at
 * nothing for want of a price: those keep the quote from being sent.
 */
export function partWarnings(parts: readonly QuotePart[], unpriced: readonly string[]): QuoteWarning[] {
  return parts.flatMap((p): QuoteWarning[] => {
    if (p.partId !== null) return [];
    if (p.unsettled && p.setting !== null && p.size === null)
      return [
        {
          message: `Nobody knows which ${JET_NAMES[p.setting].toLowerCase()} is fitted, so the new one has no size and no price yet.`,
          remedy:
            "Ask which is in it and record the settings as found; else it is asked at the step that fits it.",
          stops: false,
        },
      ];
    if (p.unsettled)
      return [
        {
          message: `${p.name} (${p.unsettled.family}) is not among the shop's parts.`,
          remedy: "Add this size to stock; else it is asked at the step that fits it.",
          stops: false,
        },
      ];
    const charged = unpriced.includes(p.code);
    return [
      {
        message: `${p.code} is not among the shop's parts${charged ? ", so it has no price and stands at nothing" : ""}.`,
        remedy: "Add it to stock, or take it out.",
        stops: charged,
        partCode: p.code,
      },
    ];
  });
}

/** Jets that chosen options take from another drawer than the model's card names: they may not screw in. */
export function drawerWarnings({ recipe, drawers }: QuoteFacts, chosen: readonly string[]): QuoteWarning[] {
  return recipe.options
    .filter((option) => chosen.includes(option.key))
    .flatMap((option) =>
      option.parts.flatMap((need): QuoteWarning[] => {
        const own = need.kind === "jet" ? (drawers?.[need.setting] ?? "") : "";
        if (need.kind !== "jet" || own === "" || own === need.family) return [];
        return [
          {
            message: `“${option.name}” takes ${JET_NAMES[need.setting].toLowerCase()}s of “${need.family}”; the model card says “${own}”.`,
            remedy: "See which of them the carburettor takes, then correct the package or the card.",
            stops: false,
          },
        ];
      }),
    );
}

/** Lines of the shop's own parts that stand at nothing for want of a price. */
export function unpricedWarnings(codes: readonly string[], parts: readonly QuotePart[]): QuoteWarning[] {
  return codes.flatMap((code): QuoteWarning[] => {
    const part = parts.find((one) => one.code === code);
    if (!part || part.partId === null) return [];
    return [
      {
        message: `${code} has no price and stands at nothing.`,
        remedy: "Give the part a cost or a price.",
        stops: true,
        partId: part.partId,
      },
    ];
  });
}
