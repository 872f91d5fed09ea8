import { MAKES_NEEDLE } from "@/lib/domain/packages/needleOption";
import { MADE_PARTS } from "@/lib/domain/packages/partOption";
import { DESCRIBED_NAMES } from "@/lib/domain/tuning/describedParts";
import { SETTINGS } from "@/lib/domain/tuning/settings";

/** What an operation can make: settings, the needle itself, and parts as they are described. */
export const MADE: readonly { readonly key: string; readonly name: string }[] = [
  ...SETTINGS,
  { key: MAKES_NEEDLE, name: "The needle itself" },
  ...MADE_PARTS.map((key) => ({ key, name: DESCRIBED_NAMES[key] })),
];
