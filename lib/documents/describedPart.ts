import type { DescribedKind, DescribedPart } from "@/lib/domain/tuning/describedParts";
import { describedPart } from "@/lib/words/describedPart";
import { languageOf } from "@/lib/words/language";
import { numberText } from "./format";

/** What a kind of part is called on a paper in the reader's language. */
export function partName(kind: DescribedKind, locale: string): string {
  return describedPart[languageOf(locale)].name[kind];
}

/** A described part in the reader's words, with what is known of it; empty where nobody described it. */
export function partSaid(part: DescribedPart | null, locale: string): string {
  if (part === null) return "";
  const words = describedPart[languageOf(locale)];
  const number = (value: number) => numberText(value, locale);
  const mm = (value: number) => `${number(value)}\u00a0mm`;
  const some = (template: string, name: string, value: number | null, text: (value: number) => string) =>
    value === null ? [] : [template.replace(`{${name}}`, text(value))];
  switch (part.kind) {
    case "jet":
      return part.by === "pin gauge" ? mm(part.measured) : number(part.measured);
    case "spring":
      return [
        words.change[part.change],
        ...some(words.free, "mm", part.freeMm, mm),
        ...some(words.wire, "mm", part.wireMm, mm),
        ...some(words.coils, "count", part.coils, number),
        ...some("{rate}\u00a0N/m", "rate", part.rateNPerM, number),
      ].join(", ");
    case "liftHoles":
      return part.holesMm.map(mm).join(", ") || words.none;
    case "openings": {
      const each = part.openings.map(({ diameterMm, breatherMm }) =>
        [mm(diameterMm), ...some(words.breather, "mm", breatherMm, mm)].join(", "),
      );
      return each.join("; ") || words.none;
    }
    default:
      return [
        part.name,
        ...some(
          part.atPa === null ? words.flow : words.flowAt.replace("{loss}", number(part.atPa)),
          "flow",
          part.flowLMin,
          number,
        ),
      ].join(": ");
  }
}
