import { figureText } from "@/app/_ui/format";
import { RECKON_CELL, ReckonTable } from "@/app/_ui/ReckonTable";
import { Section } from "@/app/_ui/Section";
import type { NeedleRank } from "@/lib/domain/tuning/targetTypes";

/** The fitted needle and those on hand, each in its best groove, best first; nothing where none on hand was measured. */
export function Needles({ ranked, locale }: { ranked: readonly NeedleRank[]; locale: string }) {
  if (ranked.length === 0) return null;
  return (
    <Section title="Needles on hand, judged">
      <ReckonTable head={["Needle", "Best groove", "Off target, an eighth to half throttle"]}>
        {ranked.map((one, at) => (
          <tr
            // biome-ignore lint/suspicious/noArrayIndexKey: two needles may be called alike
            key={`${one.name} ${at}`}
            className={
              one.name === "as fitted" ? "border-hair border-b bg-brass-wash" : "border-hair border-b"
            }
          >
            <th scope="row" className="py-1.5 text-start font-normal">
              {one.name}
            </th>
            <td className={RECKON_CELL}>{one.clip === 0 ? "no grooves" : one.clip}</td>
            <td className={RECKON_CELL}>
              {figureText(Math.abs(one.phiError) * 100, locale, 1)} % {one.phiError < 0 ? "lean" : "rich"}
            </td>
          </tr>
        ))}
      </ReckonTable>
      <p className="mt-2 max-w-prose text-[14px] text-soft">
        Best first, lean counting more than rich. Measured needles of stock alone; the main jet is as
        recommended.
      </p>
    </Section>
  );
}
