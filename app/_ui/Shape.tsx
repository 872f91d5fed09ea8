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
  return (
    <svg aria-hidden="true" className={cx("shape", INK[tone])}>
      <use href={`#shape-${shape}`} />
    </svg>
  );
}
