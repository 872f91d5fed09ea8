import type { LibraryEntry } from "../entry";
import { access, caution, check, FUEL, place } from "./write";

/** Seat, tank and what hangs between them. Minutes are starting figures: common practice, no source. */
export const TANK: readonly LibraryEntry[] = [
  access("tank", "seat-off", "Seat off", [3, 3], {
    closingChecks: ["Seat locked, nothing pinched under it"],
  }),
  access("tank", "tank-off", "Tank off", [8, 9], {
    needs: ["seat-off"],
    closingChecks: [
      "Fuel hose on, clipped, with no kink",
      "Tank breather free",
      "Tank rubbers in place, nothing pinched under the tank",
    ],
    cautions: [FUEL, "Old fuel taps and hose tails snap: hold the tap while the hose comes off."],
    tools: ["Hose clamp pliers", "Rag and fuel can"],
    torques: [place("Tank bolt")],
  }),
  caution(
    "tank",
    "drain-first",
    "Shut the tap, then drain the bowl into a cup before anything is turned over.",
  ),
  check("tank", "fuel-two-minutes", "Two minutes with the tap open: no drip anywhere"),
  check("tank", "throttle-cable-free", "Throttle snaps shut by itself at both steering locks"),
  check("tank", "cable-free-play", "Throttle cable has its free play at both steering locks"),
];
