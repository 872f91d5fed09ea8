import { figureText } from "@/app/_ui/format";
import type { FrozenAlternative } from "@/lib/data/documents/quote";
import { wordsIn } from "@/lib/words/words";

const WIDE = 240;
const TALL = 72;

interface Props {
  curve: FrozenAlternative["curve"];
  /** Lambda at the top (richest) and at the foot. */
  between: readonly [number, number];
  locale: string;
}

/** Mixture from closed to full throttle, before dashed and after drawn out; its figures are in the description. */
export function AlternativeCurve({ curve, between: [low, high], locale }: Props) {
  if (curve.length === 0 || low === high) return null;
  const say = wordsIn(locale);
  const path = (of: "before" | "after") =>
    curve
      .map((p, at) => {
        const x = (at / (curve.length - 1)) * WIDE;
        const y = ((p[of] - low) / (high - low)) * TALL;
        return `${at === 0 ? "M" : "L"}${x.toFixed(1)} ${y.toFixed(1)}`;
      })
      .join("");
  const told = [0, Math.floor(curve.length / 2), curve.length - 1].map((at) => {
    const p = curve[at] as FrozenAlternative["curve"][number];
    const lambda = (n: number) => figureText(n, locale, 2);
    return say("quotePage.curvePoint", {
      throttle: String(Math.round(p.throttle * 100)),
      before: lambda(p.before),
      after: lambda(p.after),
    });
  });
  return (
    <figure className="mt-3 border-hair border-t pt-2">
      <svg
        role="img"
        viewBox={`0 -2 ${WIDE} ${TALL + 4}`}
        preserveAspectRatio="none"
        className="block h-[72px] w-full"
      >
        <title>{say("quotePage.curve")}</title>
        <desc>{say("quotePage.curveTold", { points: told.join("; ") })}</desc>
        <path
          d={path("before")}
          fill="none"
          strokeWidth={2}
          strokeDasharray="6 5"
          vectorEffect="non-scaling-stroke"
          className="stroke-soft"
        />
        <path
          d={path("after")}
          fill="none"
          strokeWidth={3}
          vectorEffect="non-scaling-stroke"
          className="stroke-brass-fill"
        />
      </svg>
      <figcaption className="mt-1 flex justify-between gap-3 text-[13px] text-soft">
        <span>{say("quotePage.curveClosed")}</span>
        <span>{say("quotePage.curveKey")}</span>
        <span>{say("quotePage.curveFull")}</span>
      </figcaption>
    </figure>
  );
}
