import { CheckField } from "@/app/_ui/CheckField";
import { moneyText } from "@/app/_ui/format";
import type { KeptChoice } from "@/lib/data/quotes/draftSheet";

interface Props {
  ways: readonly KeptChoice[];
  currency: string;
  locale: string;
}

/** Which of the kept ways the customer may choose from; none unless ticked. */
export function WayTicks({ ways, currency, locale }: Props) {
  if (ways.length === 0) return null;
  return (
    <details className="w-full min-w-0">
      <summary className="inline-flex min-h-11 items-center font-semibold text-brass underline underline-offset-[5px] pointer-coarse:min-h-12">
        Let them choose a way
      </summary>
      <p className="text-[14px] text-soft">Ticked ways go along; their page shows them side by side.</p>
      {ways.map((way) => (
        <CheckField
          key={way.letter}
          name="ways[]"
          value={way.letter}
          label={[way.letter, way.name].filter(Boolean).join(", ")}
          figure={moneyText(way.grossMinor, currency, locale)}
          detail={way.stop || (way.now ? "as the quote stands now" : way.options.join("; "))}
          disabled={way.stop !== ""}
          ruled
        />
      ))}
    </details>
  );
}
