import type { CardReading, HandedReading } from "@/lib/domain/sheets/handedOver";
import type { DescribedKind, DescribedPart } from "@/lib/domain/tuning/describedParts";
import { measurable } from "@/lib/domain/tuning/measurables";
import { type PaperWords, paperWords } from "@/lib/words/papers";
import { settingName } from "@/lib/words/settingName";
import { type ArrivalOnPaper, arrivalPart } from "./arrival";
import { partName, partSaid } from "./describedPart";
import { distanceText, numberText, quantityText } from "./format";
import { limitsText } from "./jobCard";
import { letterfoot, letterhead, type PlacedSender } from "./letterhead";
import { BRASS, caution, facts, figure, label, ledger, say, section } from "./look";
import { type Content, toPdf } from "./pdf";
import { type ValueOnPaper, valueText } from "./settingSheet";
import { type SignatureOnPaper, signatureOnPaper } from "./signature";

interface Said {
  readonly what: string;
  readonly said: string;
}

/** What goes home with the bike. */
export interface HandoverPaper {
  readonly job: { readonly number: string; readonly title: string };
  readonly customer: string;
  readonly bike: string;
  readonly plate: string;
  readonly odometerKm: number | null;
  readonly day: string;
  readonly dayText: string;
  readonly work: readonly string[];
  readonly readings: readonly HandedReading[];
  /** Settings that were let pass outside their limits. */
  readonly letPass: readonly CardReading[];
  readonly asFound: readonly ValueOnPaper[];
  readonly asLeft: readonly ValueOnPaper[];
  /** Diameters of a needle that was written down, at its stations below the shoulder, mm. */
  readonly needles?: readonly {
    readonly carburettor: number;
    readonly atMm: number;
    readonly found: number | null;
    readonly left: number | null;
    readonly how: string;
  }[];
  /** Springs, holes, openings, filters and silencers that the work left otherwise. */
  readonly described?: readonly {
    readonly carburettor: number;
    readonly kind: DescribedKind;
    readonly found: DescribedPart | null;
    readonly left: DescribedPart;
    readonly how: string;
  }[];
  readonly fitted: readonly {
    readonly code: string;
    readonly name: string;
    readonly unit: string;
    readonly quantityMilli: number;
  }[];
  readonly cautions: readonly string[];
  /** How the bike came; null where nobody took it down. */
  readonly arrival?: ArrivalOnPaper | null;
  /** What is to be looked at next, and by when, in words. */
  readonly checks: readonly Said[];
  /** What is to pay, the sum last, in words. */
  readonly toPay: readonly Said[];
  /** Who took the bike back; null where nobody signed yet. */
  readonly signed: SignatureOnPaper | null;
  readonly shop: PlacedSender;
}

/** The handover sheet as a PDF. */
export async function handoverPdf(paper: HandoverPaper): Promise<Uint8Array> {
  const { locale } = paper.shop;
  const words = paperWords(locale);
  const name = `${words.handover} ${paper.job.number}`;
  return toPdf({
    title: name,
    author: paper.shop.name,
    locale,
    country: paper.shop.country,
    date: paper.day,
    footer: letterfoot(name, paper.shop, words),
    content: [
      letterhead({ title: words.handover, number: paper.job.number, line: paper.dayText }, paper.shop, words),
      facts([
        [words.bike, [paper.bike, paper.plate].filter(Boolean).join(", ")],
        [words.customer, paper.customer],
        [words.job, `${paper.job.number}, ${paper.job.title}`],
        [
          words.odometer,
          paper.odometerKm === null ? "" : distanceText(paper.odometerKm, paper.shop.units, locale),
        ],
      ]),
      ...arrivalPart(paper.arrival ?? null, paper.shop),
      section(words.workDone),
      { ul: paper.work.map((row) => say(row)), markerColor: BRASS },
      ...settingsPart(paper, words),
      ...readingsPart(paper, words),
      ...fittedPart(paper, words),
      { stack: [section(words.watch), caution(words.watchText)], unbreakable: true },
      ...paper.cautions.map((row) => caution(row)),
      caution(words.lawText, BRASS),
      ...saidPart(words.next, paper.checks),
      ...saidPart(words.toPay, paper.toPay),
      signatureOnPaper(paper.signed, { signature: words.received, typed: words.nameTyped }),
    ],
  });
}

function saidPart(title: string, rows: readonly Said[]): Content[] {
  if (rows.length === 0) return [];
  return [section(title), facts(rows.map(({ what, said }) => [what, said]))];
}

function settingsPart(paper: HandoverPaper, words: PaperWords): Content[] {
  if (paper.asLeft.length === 0 && (paper.needles ?? []).length === 0) return [];
  const { locale } = paper.shop;
  const several = new Set(paper.asLeft.map((value) => value.carburettor)).size > 1;
  const rows = paper.asLeft.map((left) => {
    const found = paper.asFound.find(
      (value) => value.carburettor === left.carburettor && value.setting === left.setting,
    );
    const passed = paper.letPass.find(
      (one) =>
        one.measures === left.setting && (one.carburettor === null || one.carburettor === left.carburettor),
    );
    const name = `${settingName(left.setting, locale)}${several ? `, ${words.carburettor.toLowerCase()} ${left.carburettor}` : ""}`;
    return [
      passed ? { stack: [say(name), label(`${words.overridden}: ${passed.overrideReason}`)] } : say(name),
      figure(found ? valueText(found, locale) : ""),
      figure(valueText(left, locale), { bold: true }),
      label(words.hows[left.how] ?? left.how),
    ];
  });
  for (const one of paper.needles ?? []) {
    const mm = (value: number | null) => (value === null ? "" : `${numberText(value, locale, 3)}\u00a0mm`);
    const place = several ? `, ${words.carburettor.toLowerCase()} ${one.carburettor}` : "";
    rows.push([
      say(`${words.needle}, ${numberText(one.atMm, locale, 1)}\u00a0mm${place}`),
      figure(mm(one.found)),
      figure(mm(one.left), { bold: true }),
      label(words.hows[one.how] ?? one.how),
    ]);
  }
  for (const one of paper.described ?? []) {
    const place = several ? `, ${words.carburettor.toLowerCase()} ${one.carburettor}` : "";
    rows.push([
      say(`${partName(one.kind, locale)}${place}`),
      label(partSaid(one.found, locale)),
      say(partSaid(one.left, locale), { bold: true }),
      label(words.hows[one.how] ?? one.how),
    ]);
  }
  const columns = [
    { head: words.setting, width: "*" },
    { head: words.asFound, width: "auto", end: true },
    { head: words.asLeft, width: "auto", end: true },
    { head: words.how, width: "auto" },
  ];
  return [section(words.asLeft), ledger(columns, rows)];
}

function readingsPart(paper: HandoverPaper, words: PaperWords): Content[] {
  const { locale } = paper.shop;
  if (paper.readings.length === 0) return [];
  const several = paper.readings.some((one) => (one.carburettor ?? 0) > 1);
  const number = (one: HandedReading, value: number) =>
    `${numberText(value, locale, measurable(one.measures)?.decimals)}\u00a0${one.unit}`.trim();
  const rows = paper.readings.map((one) => [
    {
      stack: [
        say(
          several && one.carburettor !== null
            ? `${one.name}, ${words.carburettor.toLowerCase()} ${one.carburettor}`
            : one.name,
        ),
        ...(one.found === null ? [] : [label(`${words.asFound}: ${number(one, one.found)}`)]),
        ...(one.overrideReason ? [label(`${words.overridden}: ${one.overrideReason}`)] : []),
      ],
    },
    label(limitsText(one, words, locale)),
    figure(number(one, one.value)),
  ]);
  return [
    section(words.readings),
    ledger(
      [
        { head: words.what, width: "*" },
        { head: "", width: "auto" },
        { head: words.value, width: "auto", end: true },
      ],
      rows,
    ),
  ];
}

function fittedPart(paper: HandoverPaper, words: PaperWords): Content[] {
  if (paper.fitted.length === 0) return [];
  const rows = paper.fitted.map((part) => [
    figure(part.code, { align: "left" }),
    say(part.name),
    figure(quantityText(part.quantityMilli, part.unit, paper.shop.locale)),
  ]);
  return [
    section(words.fitted),
    ledger(
      [
        { head: "", width: "auto" },
        { head: words.what, width: "*" },
        { head: words.quantity, width: "auto", end: true },
      ],
      rows,
    ),
  ];
}
