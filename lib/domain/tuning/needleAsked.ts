import type { Applied } from "./changes";
import type { NeedlePosition } from "./needlePosition";
import type { SettingKey } from "./settings";
import type { KnownSettings, NeedleShape, Warning } from "./targetTypes";

const HEIGHTS: readonly SettingKey[] = ["clipPosition", "needleSeatMm", "needleShimBelowMm"];

/**
 * Whether the needle's height is to be computed, and what else is. Where the package sets seat, shims or clip itself the height is
 * said: nothing is computed on top of it. A needle without grooves is asked for its shims, whatever the package calls it.
 */
export function heightAsked(
  applied: Applied,
  clips: number | undefined,
): {
  readonly computed: ReadonlySet<SettingKey>;
  readonly moves: boolean;
} {
  const asked = HEIGHTS.some((key) => applied.computed.has(key));
  const said = HEIGHTS.some((key) => applied.because[key] !== undefined);
  const computed = new Set(applied.computed);
  if (asked) for (const key of HEIGHTS) computed.delete(key);
  if (asked && !said) computed.add(clips === 0 ? "needleShimBelowMm" : "clipPosition");
  return { computed, moves: asked && !said };
}

/** What is told as computed: a height that is only a difference is not, it stays as found. */
export function told(
  computed: ReadonlySet<SettingKey>,
  position: NeedlePosition | null,
): ReadonlySet<SettingKey> {
  if (position?.to !== null) return computed;
  return new Set([...computed].filter((key) => !HEIGHTS.includes(key)));
}

/** What to look at before the needle's height can be told as a number. */
export function heightWarnings(
  position: NeedlePosition | null,
  moves: boolean,
  needle: NeedleShape,
): readonly Warning[] {
  if (!moves) return [];
  if (position === null)
    return [
      warning(
        "The needle's height is to be computed, but how it is held is not known as found.",
        needle.groovesAssumed
          ? "Record the needle: its grooves, or that it has none and which shims it sits on."
          : "Record Clip position from top as found.",
      ),
    ];
  return position.question === ""
    ? []
    : [
        warning(
          "Where the needle sits is not known as found: its new height is a difference.",
          position.question,
        ),
      ];
}

const warning = (message: string, remedy: string): Warning => ({
  rule: "unknown as found",
  message,
  remedy,
  source: "model",
});

/** Settings whose as-found value only the model card says. */
export function unsureOf(found: KnownSettings): readonly SettingKey[] {
  return Object.entries(found).flatMap(([key, known]) =>
    known?.how === "assumed" ? [key as SettingKey] : [],
  );
}
