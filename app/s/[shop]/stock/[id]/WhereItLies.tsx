import { LinkButton } from "@/app/_ui/LinkButton";
import { Section } from "@/app/_ui/Section";
import type { PartView } from "@/lib/data/stock/parts";
import { fetchOrder } from "@/lib/domain/stock/bins";
import { quantityText } from "@/lib/schemas/quantity";
import { amountText } from "../amount";
import { MoveBetween } from "./MoveBetween";

export interface WhereItLiesProps {
  shop: string;
  part: PartView;
  bins: readonly string[];
  locale: string;
  mayWrite: boolean;
}

/** The bins a part lies in with how much is in each: the usual one first, as it is fetched. */
export function WhereItLies({ shop, part, bins, locale, mayWrite }: WhereItLiesProps) {
  const lying = fetchOrder(part.bins, part.bin);
  return (
    <Section title="Where it lies">
      {lying.length === 0 && (
        <p className="mb-3 text-soft">
          None is on hand.{" "}
          {part.bin ? (
            <>
              Its usual bin is <span className="font-mono">{part.bin}</span>.
            </>
          ) : (
            "It has no usual bin yet."
          )}
        </p>
      )}
      <ul className="mb-3">
        {lying.map((one) => (
          <li key={one.bin} className="flex flex-wrap items-center gap-x-4 border-hair border-b py-1">
            <span className="min-w-16 font-mono font-semibold">{one.bin || "no bin"}</span>
            <span className="font-mono">{amountText(one.onHandMilli, part.unit, locale)}</span>
            <span className="min-w-0 flex-1 text-[14px] text-soft">
              {one.bin !== "" && one.bin === part.bin && "its usual bin"}
            </span>
            {mayWrite && (
              <LinkButton
                href={`/s/${shop}/stock/${part.id}/count?bin=${encodeURIComponent(one.bin)}`}
                tone="quiet"
              >
                Count<span className="sr-only"> what lies in {one.bin || "no bin"}</span>
              </LinkButton>
            )}
          </li>
        ))}
      </ul>
      {mayWrite && (
        <MoveBetween
          shop={shop}
          partId={part.id}
          version={part.version}
          code={part.code}
          unit={part.unit === "each" ? undefined : part.unit}
          lying={lying.map((one) => ({
            bin: one.bin,
            typed: quantityText(one.onHandMilli, "each"),
            text: amountText(one.onHandMilli, part.unit, locale),
          }))}
          bins={bins}
        />
      )}
    </Section>
  );
}
