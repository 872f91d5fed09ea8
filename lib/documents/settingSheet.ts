import type { Conditions } from "@/lib/domain/air/conditions";
import { settingDef } from "@/lib/domain/tuning/settings";
import { type PaperWords, paperWords } from "@/lib/words/papers";
import { settingName, settingUnit } from "@/lib/words/settingName";
import { airText } from "./airText";
import { distanceText, numberText } from "./format";
import { letterfoot, letterhead, type PlacedSender } from "./letterhead";
import { BRASS, facts, figure, label, ledger, say, section } from "./look";
import { type Content, toPdf } from "./pdf";

export interface ValueOnPaper {
  readonly carburettor: number;
  readonly setting: string;
  readonly value: number;
  readonly how: string;
}

export interface SheetPaper {
  readonly kind: "asFound" | "target" | "asLeft";
  /** The day it was taken, on the shop's clock. */
  readonly day: string;
  /** The same as people write it. */
  readonly dayText: string;
  readonly takenBy: string;
  readonly job: string | null;
  readonly odometerKm: number | null;
  readonly customer: string;
  readonly bike: string;
  readonly plate: string;
  readonly carburettors: readonly {
    readonly position: number;
    readonly label: string;
    readonly marking: string;
  }[];
  /** Air that it holds for; null where it was not said. */
  readonly conditions: Conditions | null;
  readonly note: string;
  readonly values: readonly ValueOnPaper[];
  readonly shop: PlacedSender;
}

/** A setting sheet as a PDF: one column for each carburettor, and how each value is known. */
export async function settingSheetPdf(sheet: SheetPaper): Promise<Uint8Array> {
  const { locale } = sheet.shop;
  const words = paperWords(locale);
  const kind = words.kinds[sheet.kind] ?? sheet.kind;
  const name = `${words.settingSheet}: ${kind.toLowerCase()}`;
  return toPdf({
    title: `${name}, ${sheet.bike}`,
    author: sheet.shop.name,
    locale,
    country: sheet.shop.country,
    date: sheet.day,
    footer: letterfoot(`${name}   ${sheet.bike}`, sheet.shop, words),
    content: [
      letterhead({ title: words.settingSheet, line: kind }, sheet.shop, words),
      facts([
        [words.bike, [sheet.bike, sheet.plate].filter(Boolean).join(", ")],
        [words.customer, sheet.customer],
        [words.taken, sheet.dayText],
        [words.by, sheet.takenBy],
        [words.job, sheet.job === null ? "" : String(sheet.job)],
        [
          words.odometer,
          sheet.odometerKm === null ? "" : distanceText(sheet.odometerKm, sheet.shop.units, locale),
        ],
        [
          words.conditions,
          sheet.conditions === null ? "" : airText(sheet.conditions, sheet.shop.units, locale, words),
        ],
      ]),
      section(words.values),
      valuesLedger(sheet, words),
      ...(sheet.values.some((value) => value.how === "computed")
        ? [say(words.verify, { size: 9, color: BRASS, margin: [0, 6, 0, 0] })]
        : []),
      ...(sheet.note ? [say(sheet.note, { margin: [0, 10, 0, 0] })] : []),
    ],
  });
}

/** A value as written on paper, with its unit. */
export function valueText(value: Pick<ValueOnPaper, "setting" | "value">, locale: string): string {
  const def = settingDef(value.setting);
  return `${numberText(value.value, locale, def?.decimals)}${def?.unit ? `\u00a0${settingUnit(def.unit, locale)}` : ""}`;
}

function valuesLedger(sheet: SheetPaper, words: PaperWords): Content {
  const positions = [...new Set(sheet.values.map((value) => value.carburettor))].sort((a, b) => a - b);
  const settings = [...new Set(sheet.values.map((value) => value.setting))];
  const headOf = (position: number) => {
    const known = sheet.carburettors.find((one) => one.position === position);
    return [known?.label || `${words.carburettor} ${position}`, known?.marking ?? ""]
      .filter(Boolean)
      .join(", ");
  };
  return ledger(
    [
      { head: words.setting, width: "*" },
      ...positions.map((position) => ({ head: headOf(position), width: "auto", end: true })),
    ],
    settings.map((setting) => [
      say(settingName(setting, sheet.shop.locale)),
      ...positions.map((position): Content => {
        const found = sheet.values.find(
          (value) => value.carburettor === position && value.setting === setting,
        );
        if (!found) return say("");
        return {
          stack: [
            figure(valueText(found, sheet.shop.locale), { bold: true, size: 11 }),
            label(words.hows[found.how] ?? found.how, { align: "right" }),
          ],
        };
      }),
    ]),
  );
}
