import { it } from "vitest";
import { OPENED, PLAIN_AIR } from "./tuning-demo";
import { targetSettings } from "@/lib/domain/tuning/targetSheet";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
it("prints", () => {
  const t0 = performance.now();
  for (let i = 0; i < 50; i++) targetSettings(OPENED);
  console.log("ms", (performance.now() - t0) / 50);
  const s = targetSettings(OPENED);
  console.log(JSON.stringify({ ...s, carburettors: s.carburettors.map((c) => ({ ...c, before: 0, after: 0 })) }, null, 1));
  const c = s.carburettors[0]!;
  const t1 = performance.now();
  for (let i = 0; i < 50; i++) fuelCurve(c.before, PLAIN_AIR, 50);
  console.log("ms", (performance.now() - t1) / 50);
  for (const st of [c.before, c.after, {...c.before, settings: c.after.settings}, { ...c.before, settings: { ...c.before.settings, airboxOpeningMm: 51 } }])
    console.log(fuelCurve(st, PLAIN_AIR, 12).points.map((p) => `${p.throttle.toFixed(2)} rpm${p.rpm.toFixed(0)} x${p.liftMm.toFixed(1)} ${p.low.toFixed(3)} ${p.lambda.toFixed(3)} ${p.high.toFixed(3)} ${p.region}`).join("\n"));
});
