import { DataTable } from "@/app/_ui/DataTable";
import { instantText } from "@/app/_ui/format";
import { Section } from "@/app/_ui/Section";
import type { TableColumn } from "@/app/_ui/tableTypes";
import type { PartView } from "@/lib/data/stock/parts";
import { unitPriceText } from "@/lib/domain/money/unitPrice";
import type { Reason } from "@/lib/domain/reason";
import { MOVE_WORDS } from "@/lib/schemas/quantity";
import { amountText, signedText } from "../amount";
import { PutRight } from "./PutRight";

const COLUMNS: readonly TableColumn[] = [
  { key: "what", header: "Move" },
  { key: "change", header: "Change", kind: "figure" },
  { key: "after", header: "On hand after", kind: "figure" },
  { key: "at", header: "When", kind: "instant" },
  { key: "job", header: "Job", kind: "link" },
];
const COST: TableColumn = { key: "cost", header: "Cost of one", kind: "figure" };

/** Why on hand is what it is: the newest moves, and what all before them come to. */
export function moveReasons(part: PartView, locale: string, zone: string): Reason[] {
  const newest = part.moves.filter((move) => move.kind !== "betweenBins").slice(0, 12);
  const before = part.onHandMilli - newest.reduce((sum, move) => sum + move.quantityMilli, 0);
  const reasons = newest.map((move) => ({
    fact: [MOVE_WORDS[move.kind], move.job ? `job ${move.job.number}` : "", move.why]
      .filter(Boolean)
      .join(", "),
    from: [
      instantText(move.at.toISOString(), locale, zone),
      move.writtenAt ? `written ${instantText(move.writtenAt.toISOString(), locale, zone)}` : "",
      move.by,
    ]
      .filter(Boolean)
      .join(", "),
    effect: signedText(move.quantityMilli, part.unit, locale),
  }));
  if (before !== 0)
    reasons.push({
      fact: "all moves before these",
      from: "the part's ledger",
      effect: signedText(before, part.unit, locale),
    });
  return reasons.length
    ? reasons
    : [{ fact: "Nothing has moved yet", from: "the part's ledger", effect: "0" }];
}

export interface MovesProps {
  shop: string;
  part: PartView;
  locale: string;
  zone: string;
  currency: string;
  mayWrite: boolean;
}

/** The part's ledger, newest first. */
export function Moves({ shop, part, locale, zone, currency, mayWrite }: MovesProps) {
  return (
    <Section
      title="Moves"
      aside={
        mayWrite &&
        part.moves.length > 0 && (
          <PutRight
            shop={shop}
            code={part.code}
            unit={part.unit}
            moves={part.moves
              .filter((move) => move.kind !== "betweenBins")
              .map((move) => ({
                id: move.id,
                label: `${instantText(move.at.toISOString(), locale, zone, "date")}: ${MOVE_WORDS[move.kind]} ${signedText(move.quantityMilli, part.unit, locale)}`,
              }))}
          />
        )
      }
    >
      <DataTable
        caption={`Moves of ${part.code}, newest first`}
        columns={part.cost ? [...COLUMNS, COST] : COLUMNS}
        locale={locale}
        zone={zone}
        rows={part.moves.map((move) => ({
          id: String(move.id),
          what: {
            text: MOVE_WORDS[move.kind],
            sub: [
              move.bin && `bin ${move.bin}`,
              move.why,
              move.by,
              move.writtenAt
                ? `written ${instantText(move.writtenAt.toISOString(), locale, zone, "date")}`
                : "",
            ]
              .filter(Boolean)
              .join(", "),
          },
          change: signedText(move.quantityMilli, part.unit, locale),
          after: amountText(move.afterMilli, part.unit, locale),
          at: move.at.toISOString(),
          job: move.job ? { text: `Job ${move.job.number}`, href: `/s/${shop}/jobs/${move.job.id}` } : null,
          cost:
            part.cost && move.unitCostE4 != null ? unitPriceText(move.unitCostE4, currency, locale) : null,
        }))}
      />
    </Section>
  );
}
