import type { LibraryEntry } from "../entry";
import { access, caution, check, place } from "./write";

const HOSES = "Vent and overflow hoses on, none kinked, none pinched";

/** A single carburettor swung on its manifolds. Minutes are starting figures: common practice, no source. */
export const SWUNG: readonly LibraryEntry[] = [
  access("swung", "swung", "Carburettor swung out of its rubbers", [8, 9], {
    openAs: "Swing out: carburettor",
    closeAs: "Put back: carburettor in its rubbers",
    families: ["slide", "cv-side"],
    needs: ["tank-off"],
    closingChecks: [
      "Carburettor home in both rubbers, its notch in line",
      "Clamps tight, their screws still to be reached",
      HOSES,
      "Throttle snaps shut by itself at both steering locks",
    ],
    cautions: ["Vent hoses fall off or kink whenever the carburettor is turned: look before it goes in."],
    torques: [place("Manifold clamps")],
    recheck: { what: "Manifold clamps and vent hoses", km: 300, days: 30 },
  }),
  access("swung", "lifted", "Carburettor lifted off its inlets", [9, 11], {
    openAs: "Lift off: down-draught carburettor",
    closeAs: "Set down: carburettor on its inlets",
    families: ["cv-down"],
    needs: ["tank-off", "airbox-back"],
    closingChecks: ["Carburettor down on its inlets all round", "Inlet seals whole and seated", HOSES],
    cautions: ["The inlets stand open upwards: cover them at once, a dropped screw ends in the engine."],
    tools: ["Inlet plugs or clean rag"],
    torques: [place("Inlet clamps")],
  }),
  caution("swung", "hoses-turned", "Vent hoses fall off or kink whenever the carburettor is turned."),
  check("swung", "notch-in-line", "Carburettor home in both rubbers, its notch in line"),
  check("swung", "hoses-on", HOSES),
  check("swung", "grommets", "Grommets and blanking caps all there"),
];
