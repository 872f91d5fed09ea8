import type { Column } from "pdfmake/interfaces";
import { type PaperWords, paperWords } from "@/lib/words/papers";
import { proceduresOfCard } from "../domain/procedures/procedures";
import { dayText, distanceText, minutesText, numberText, quantityText } from "./format";
import { letterfoot, letterhead, type PlacedSender } from "./letterhead";
import { facts, figure, INK, label, ledger, OXIDE, say } from "./look";
import { measuring } from "./measuring";
import { type Content, toPdf } from "./pdf";

export interface HoldOnPaper {
  readonly kind: "reading" | "signature" | "check";
  readonly name: string;
  readonly unit: string;
  readonly low: number | null;
  readonly high: number | null;
  /** Key of what it measures; empty where nothing is kept of it. */
  readonly measures: string;
  readonly passed: boolean;
  readonly overrideReason: string;
  readonly readings: readonly { readonly value: number | null }[];
}

export interface StepOnPaper {
  readonly position: number;
  readonly kind: "open" | "operation" | "close" | "ride";
  readonly name: string;
  readonly instruction: string;
  readonly minutes: number;
  readonly tools: readonly string[];
  readonly cautions: readonly string[];
  /** Keys of the settings that it makes. */
  readonly makes: readonly string[];
  readonly state: "todo" | "done" | "skipped";
  readonly doneByName: string;
  readonly reason: string;
  /** What was written at the step, with who did. */
  readonly notes?: readonly { readonly text: string; readonly by: string }[];
  readonly holdPoints: readonly HoldOnPaper[];
  readonly settings: readonly {
    readonly def: { readonly name: string; readonly unit: string; readonly decimals: number };
    readonly carburettor: number;
    readonly from: number | null;
    readonly to: number | null;
  }[];
  readonly parts: readonly {
    readonly wantedMilli: number;
    readonly part: { readonly code: string; readonly name: string; readonly unit: string };
  }[];
}

/** A job's card on paper, for a bench without a screen: what is done says so, what is open has room to write. */
export interface JobCardPaper {
  readonly number: string;
  readonly title: string;
  readonly customer: { readonly name: string };
  readonly bike: { readonly name: string; readonly plate: string };
  readonly complaint: string;
  /** What the job waits for now, in words; empty where it can go on. */
  readonly waits?: string;
  readonly odometerKm?: number | null;
  readonly minutes: number;
  readonly steps: readonly StepOnPaper[];
  readonly shop: PlacedSender;
  /** The day it is printed for. */
  readonly day: string;
}

/** The job card as a PDF. */
export async function jobCardPdf(card: JobCardPaper): Promise<Uint8Array> {
  const { locale } = card.shop;
  const words = paperWords(locale);
  const name = `${words.jobCard} ${card.number}`;
  return toPdf({
    title: name,
    author: card.shop.name,
    locale,
    country: card.shop.country,
    date: card.day,
    footer: letterfoot(`${name}   ${card.bike.name}`, card.shop, words),
    content: [
      letterhead(
        { title: words.jobCard, number: card.number, line: dayText(card.day, locale) },
        card.shop,
        words,
      ),
      facts([
        [words.job, card.title],
        [words.customer, card.customer.name],
        [words.bike, [card.bike.name, card.bike.plate].filter(Boolean).join(", ")],
        [
          words.odometer,
          card.odometerKm == null ? "" : distanceText(card.odometerKm, card.shop.units, locale),
        ],
        [words.complaint, card.complaint],
        [words.waitsFor, card.waits ?? ""],
        [words.planned, minutesText(card.minutes, locale)],
      ]),
      { text: "", margin: [0, 6, 0, 0] },
      ledger(
        [
          { head: "", width: 18 },
          { head: words.step, width: "*" },
          { head: words.minutes, width: "auto", end: true },
          { head: words.reading, width: 150 },
        ],
        card.steps.map((step) => [
          figure(String(step.position), { align: "left" }),
          stepCell(step, words, locale),
          figure(String(step.minutes)),
          {
            stack:
              step.holdPoints.length > 0
                ? step.holdPoints.map((hold) => holdCell(hold, words, locale))
                : [say("")],
          },
        ]),
      ),
      ...measuring(proceduresOfCard(card.steps), words, locale),
    ],
  });
}

function stepCell(step: StepOnPaper, words: PaperWords, locale: string): Content {
  const parts = step.parts.map(
    (one) => `${quantityText(one.wantedMilli, one.part.unit, locale)} × ${one.part.code} ${one.part.name}`,
  );
  const settings = step.settings.map(({ def, carburettor, from, to }) => {
    const text = (value: number) => numberText(value, locale, def.decimals);
    const name = `${def.name}${carburettor > 1 ? ` (${carburettor})` : ""}`;
    const found = from === null ? "" : `, ${words.asFound.toLowerCase()} ${text(from)}`;
    return `${name}: ${to === null ? "__________" : text(to)} ${def.unit}${found}`;
  });
  return {
    columns: [
      box(step.state === "done"),
      {
        width: "*",
        stack: [
          ...step.cautions.map((caution) => say(caution, { bold: true, color: OXIDE, size: 8.5 })),
          say(step.name, { bold: true }),
          ...(step.instruction ? [say(step.instruction, { size: 8.5 })] : []),
          ...(step.tools.length > 0 ? [label(`${words.tools}: ${step.tools.join(", ")}`)] : []),
          ...settings.map((setting) => say(setting, { bold: true, size: 9.5 })),
          ...parts.map((part) => say(part, { size: 8.5 })),
          ...(step.notes ?? []).map((note) =>
            say(note.by ? `${note.by}: ${note.text}` : note.text, { size: 8.5 }),
          ),
          ...(step.state === "skipped" ? [label(`${words.skipped}: ${step.reason}`)] : []),
          ...(step.state === "done" && step.doneByName ? [label(step.doneByName)] : []),
        ],
      },
    ],
    columnGap: 6,
  };
}

/** A box to tick, crossed where it is done. */
function box(crossed: boolean): Column {
  const line = (x1: number, y1: number, x2: number, y2: number) => ({
    type: "line" as const,
    x1,
    y1,
    x2,
    y2,
    lineWidth: 1.2,
    lineColor: INK,
  });
  return {
    width: 10,
    canvas: [
      { type: "rect", x: 0, y: 1, w: 9, h: 9, lineWidth: 0.8, lineColor: INK },
      ...(crossed ? [line(1.5, 2.5, 7.5, 8.5), line(7.5, 2.5, 1.5, 8.5)] : []),
    ],
  };
}

function holdCell(hold: HoldOnPaper, words: PaperWords, locale: string): Content {
  const value = hold.readings[0]?.value ?? null;
  const taken = hold.passed || hold.overrideReason !== "";
  const blank = hold.kind === "check" ? words.check : hold.kind === "signature" ? words.sign : hold.unit;
  const said = value === null ? blank : `${numberText(value, locale)} ${hold.unit}`;
  return {
    stack: [
      say(hold.name, { size: 8.5, bold: true }),
      ...(hold.kind === "reading" ? [label(limitsText(hold, words, locale))] : []),
      {
        columns: [
          taken ? box(true) : { width: 0, text: "" },
          say(taken ? said : `_____________ ${blank}`, { size: 8.5 }),
        ],
        columnGap: 5,
      },
      ...(hold.overrideReason ? [label(`${words.overridden}: ${hold.overrideReason}`)] : []),
    ],
    margin: [0, 0, 0, 4],
  };
}

export function limitsText(
  hold: Pick<HoldOnPaper, "low" | "high" | "unit">,
  words: PaperWords,
  locale: string,
): string {
  const said = (value: number) => numberText(value, locale);
  if (hold.low !== null && hold.high !== null)
    return words.between(said(hold.low), said(hold.high), hold.unit);
  if (hold.low !== null) return words.atLeast(said(hold.low), hold.unit);
  return hold.high === null ? "" : words.atMost(said(hold.high), hold.unit);
}
