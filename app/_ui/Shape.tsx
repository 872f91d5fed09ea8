import { cx } from "./cx";

export type ShapeName = "circle" | "diamond" | "square" | "filled" | "triangle" | "dash";
export type Tone = "ink" | "soft" | "brass" | "oxide" | "pine";

const INK: Record<Tone, string> = {
  ink: "text-ink",
  soft: "text-soft",
  brass: "text-brass",
  oxide: "text-oxide",
  pine: "text-pine",
};

/** The text colour of a tone. */
export const toneText = (tone: Tone): string => INK[tone];

/** A state's shape, drawn in the colour of the text. A warning's diamond and triangle are filled. */
export function Shape({ shape, tone = "soft" }: { shape: ShapeName; tone?: Tone | undefined }) {
  const fill = tone === "oxide" ? "currentColor" : "none";
  return (
    <svg
      aria-hidden="true"
      viewBox="0 0 12 12"
      width="12"
      height="12"
      className={cx("inline-block flex-none align-baseline", INK[tone])}
      fill="none"
      stroke="currentColor"
      strokeWidth="2"
    >
      {shape === "circle" && <circle cx="6" cy="6" r="4" />}
      {shape === "diamond" && <path d="M6 1.5 10.5 6 6 10.5 1.5 6Z" fill={fill} />}
      {shape === "square" && <rect x="2" y="2" width="8" height="8" />}
      {shape === "filled" && <rect x="2" y="2" width="8" height="8" fill="currentColor" />}
      {shape === "triangle" && <path d="M6 2 10.8 10.2H1.2Z" fill={fill} />}
      {shape === "dash" && <path d="M1.5 6h9" />}
    </svg>
  );
}
