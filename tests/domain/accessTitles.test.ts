import { describe, expect, it } from "vitest";
import { accessTitles } from "@/lib/domain/packages/accessTitles";

describe("a step that opens or closes an access", () => {
  it("reads as what the hand does", () => {
    expect(accessTitles({ name: "Tank off" })).toEqual({ open: "Take off: tank", close: "Put back: tank" });
    expect(accessTitles({ name: "Rack out" })).toEqual({ open: "Take out: rack", close: "Put back: rack" });
    expect(accessTitles({ name: "Carburettor tilted" }).close).toBe("Tilt back: carburettor");
    expect(accessTitles({ name: "Engine bay" })).toEqual({
      open: "Open: Engine bay",
      close: "Close: Engine bay",
    });
  });

  it("says what the package says instead", () => {
    const running = { name: "Engine running", openAs: "Start engine, extraction on", closeAs: "Stop engine" };
    expect(accessTitles(running)).toEqual({ open: running.openAs, close: running.closeAs });
  });
});
