import { CheckField } from "@/app/_ui/CheckField";
import { moneyText } from "@/app/_ui/moneyText";
import type { DraftScreen } from "./shown/screen";

interface Props {
  alternatives: DraftScreen["alternatives"];
  currency: string;
  locale: string;
}

/** Which of the kept alternatives the customer may choose from; none unless ticked. */
export function AlternativeTicks({ alternatives, currency, locale }: Props) {
  if (alternatives.length === 0) return null;
  return (
    <details className="w-full min-w-0">
      <summary className="inline-flex min-h-11 items-center font-semibold text-brass underline underline-offset-[5px] pointer-coarse:min-h-12">
        Let them choose an alternative
      </summary>
      <p className="text-[14px] text-soft">
        Ticked alternatives go along; their page shows them side by side.
      </p>
      {alternatives.map((alternative) => (
        <CheckField
          key={alternative.letter}
          name="alternatives[]"
          value={alternative.letter}
          label={[alternative.letter, alternative.name].filter(Boolean).join(", ")}
          figure={moneyText(alternative.grossMinor, currency, locale)}
          detail={
            alternative.stop || (alternative.now ? "as the quote stands now" : alternative.options.join("; "))
          }
          disabled={alternative.stop !== ""}
          ruled
        />
      ))}
    </details>
  );
}
