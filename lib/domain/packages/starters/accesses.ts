import { access } from "../writing";

export const CROSS = "JIS cross driver no. 2 (JIS B 4633), not Phillips";
export const FUEL = "Fuel vapour: no flame, no sparks, no grinding nearby. Extinguisher in reach.";
const HEADS = "Small cross heads here are JIS: another driver burrs them.";

export const SEAT = access("seat", "Seat off", 3, 3, { closingChecks: ["Seat locked, nothing pinched"] });

export const TANK = access("tank", "Tank off", 8, 9, {
  needs: ["seat"],
  closingChecks: ["Fuel hose on and clipped", "Tank breather free"],
  cautions: [FUEL],
});

export const AIRBOX = access("airbox", "Airbox lid off", 3, 3, {
  needs: ["seat"],
  closingChecks: ["Lid seal seated all round"],
});

/** The running engine, with `shut`: what must be closed for it. */
export const running = (shut: readonly string[]) =>
  access("running", "Engine running, extraction on", 3, 1, {
    openAs: "Start engine, extraction on",
    closeAs: "Stop engine",
    excludes: shut,
    cautions: ["Carbon monoxide: extraction on the silencer, doors open.", "Hot exhaust."],
    tools: ["Extraction hose", "Rev counter"],
  });

export const SWUNG = access("swung", "Carburettor swung out of its rubbers", 8, 9, {
  openAs: "Swing out: carburettor",
  closeAs: "Put back: carburettor in its rubbers",
  needs: ["tank"],
  closingChecks: [
    "Carburettor home in both rubbers, clamps tight",
    "Vent and overflow hoses on, not kinked",
    "Throttle closes by itself at both locks",
  ],
});

export const BOWL = access("bowl", "Float bowl off", 3, 4, {
  fuelOpen: true,
  needs: ["swung"],
  closingChecks: ["O-ring in its groove", "Two minutes of fuel from the bottle, no drip"],
  cautions: [FUEL, HEADS],
  tools: [CROSS, "Drain cup", "Auxiliary fuel bottle"],
});

export const BENCH = access("bench", "Carburettor out on the bench", 14, 18, {
  openAs: "Take out: carburettor",
  closeAs: "Put back: carburettor",
  needs: ["tank"],
  closingChecks: [
    "Carburettor home in both rubbers, clamps tight",
    "All hoses on, none kinked",
    "Throttle closes by itself at both locks",
  ],
  cautions: [FUEL],
});

export const RACK = access("rack", "Carburettors out as a rack", 18, 22, {
  openAs: "Take out: carburettors as a rack",
  closeAs: "Put back: carburettors as a rack",
  needs: ["tank"],
  closingChecks: [
    "Rubbers home, clamps even",
    "Throttle closes by itself at both locks",
    "Vent hoses on, not kinked",
  ],
  cautions: ["Lift the rack by both bodies: the link between them bends."],
});
