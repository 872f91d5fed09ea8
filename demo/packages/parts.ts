import type { Access } from "@/lib/domain/packages/recipe";
import { access } from "@/lib/domain/packages/writing";

/** `count` pieces of a part. */
export const pieces = (code: string, count: number) => ({
  kind: "part" as const,
  code,
  quantityMilli: count * 1000,
});

export const JIS = "JIS cross driver no. 2, not Phillips";
const SCREWS = "Small cross heads here are JIS: the wrong driver burrs them.";
const FUEL = "Fuel vapour: no flame, no sparks, no grinding nearby. Extinguisher in reach.";

/** What comes off a single to reach its carburettor. */
export const SINGLE_ACCESSES: readonly Access[] = [
  access("side-covers", "Seat and side covers off", 5, 5, {
    closingChecks: ["Grommets all there"],
    tools: ["10 mm socket", "JIS cross driver no. 3"],
  }),
  access("airbox-lid", "Airbox lid off", 2, 2, {
    needs: ["side-covers"],
    closingChecks: ["Lid seal seated all round"],
    tools: [JIS],
  }),
  access("tank", "Tank off", 7, 8, {
    needs: ["side-covers"],
    closingChecks: ["Fuel hose on and clipped", "Tank breather free"],
    cautions: [FUEL],
    tools: ["12 mm socket", "Hose clamp pliers"],
  }),
  access("turned-left", "Carburettor turned left", 5, 6, {
    needs: ["tank"],
    excludes: ["turned-right"],
    closingChecks: ["Vent hose on, not kinked", "Choke fitting straight in its thread"],
    cautions: ["The choke fitting strips easily: finger tight, then an eighth."],
    tools: ["8 mm socket, long"],
  }),
  access("turned-right", "Carburettor turned right", 5, 6, {
    needs: ["tank"],
    excludes: ["turned-left"],
    closingChecks: ["Vent hose on, not kinked", "Throttle closes by itself at both locks"],
    tools: ["8 mm socket, long"],
  }),
  access("bowl", "Bowl off", 3, 4, {
    fuelOpen: true,
    needs: ["turned-left"],
    closingChecks: ["O-ring in its groove", "Fuel from the bottle two minutes, no drip"],
    cautions: [SCREWS],
    tools: [JIS, "Drain cup", "Auxiliary fuel bottle"],
  }),
  access("slide-cover", "Slide cover off", 4, 6, {
    needs: ["turned-right"],
    closingChecks: ["Slide rises and drops freely", "Cover screws seated evenly, by hand only"],
    cautions: [SCREWS, "A nicked diaphragm stops the slide rising: lift it with fingers only."],
    tools: [JIS],
  }),
  access("running", "Engine running, extraction on", 2, 1, {
    openAs: "Start engine, extraction on",
    closeAs: "Stop engine",
    excludes: ["airbox-lid", "tank", "bowl", "slide-cover"],
    cautions: ["Carbon monoxide: extraction on the silencer, doors open.", "Hot exhaust."],
    tools: ["Extraction hose", "Rev counter"],
  }),
];
