import { saveKit } from "@/lib/data/kits/write";
import { createPart, putOnOrder } from "@/lib/data/parts/save";
import { belowPoint } from "@/lib/data/stock/drawer";
import { saveJetFamily } from "@/lib/data/stock/jetFamilies";
import type { ShopHandle } from "@/lib/db/shop";
import { SHIM_FAMILY } from "@/lib/domain/stock/shims";
import { KitSchema } from "@/lib/schemas/kits";
import { NewPartSchema } from "@/lib/schemas/parts";
import type { Stage } from "../stage";
import type { Chance } from "../work/chance";
import type { Course } from "../work/courses";
import { receive } from "../work/quoting";
import { FAMILIES, JETS, PARTS } from "./shelfList";

/** Fills the shelves by the part form's own words. */
export async function stockShelves(shop: ShopHandle, chance: Chance): Promise<void> {
  for (const [code, name, kind, unit, supplier, bin, leadDays, cost, point, opening] of PARTS) {
    const family =
      kind === "jet"
        ? { family: "Needle jets", size: code.slice(-3), convention: "bore" }
        : code.startsWith("SHIM-")
          ? { family: SHIM_FAMILY, size: code.endsWith("5") ? "0.5" : "0.25" }
          : {};
    await createPart(
      shop,
      NewPartSchema.parse({
        code,
        name,
        kind,
        unit,
        supplier,
        bin,
        leadDays,
        cost,
        point,
        opening,
        ...family,
      }),
    );
  }
  for (const { family, code, name, convention, cost, bin, sizes, busy, scarce } of FAMILIES)
    for (const size of sizes) {
      const moves = size >= busy[0] && size <= busy[1] && size !== scarce;
      const opening = size === scarce ? "1" : String(moves ? chance.between(3, 6) : chance.between(0, 2));
      const supply = {
        supplier: JETS,
        supplierCode: `${code.toLowerCase()}${size * 10}`,
        bin,
        leadDays: "5",
      };
      const words = {
        code: `${code}-${size}`,
        name: `${name} ${size}`,
        kind: "jet",
        unit: "each",
        family,
        size: String(size),
        convention,
      };
      await createPart(
        shop,
        NewPartSchema.parse({ ...words, ...supply, cost, point: moves ? "2" : "", opening }),
      );
    }
  for (const { family, code, convention } of FAMILIES) {
    const thread = code.startsWith("M") ? "M5 x 0.75" : "M6 x 0.75";
    await saveJetFamily(shop, { name: family, version: 0, thread, convention });
  }
  await createPart(
    shop,
    NewPartSchema.parse({
      code: "FF-5",
      name: "Fuel filter, in line 6 mm, paper",
      kind: "filter",
      unit: "each",
      bin: "D3",
      cost: "3.90",
      opening: "2",
      replacedBy: "FF-6",
    }),
  );
  await saveKit(
    shop,
    KitSchema.parse({
      code: "KIT-BOWL-40",
      name: "Bowl kit, 40 bore",
      fits: "Constant vacuum, 40 mm",
      price: "9.90",
      parts: {
        "0": { code: "OR-BOWL-40", quantity: "1" },
        "1": { code: "OR-SCREW", quantity: "1" },
        "2": { code: "SCR-J4x12", quantity: "4" },
      },
    }),
  );
}

/** Every few weeks the desk orders what fell below its point; deliveries come a week later. */
export async function* restocking(stage: Stage, days: readonly number[]): Course {
  for (const day of days) {
    const at = stage.calendar.at(day, "09:40");
    yield at;
    const low = await belowPoint(stage.shop.as(stage.hands.desk, at), 60);
    const orders = low
      .filter((row) => !row.covered)
      .map((row) => ({ partId: row.id, quantityMilli: row.pointMilli * 2 - Math.min(0, row.freeMilli) }));
    for (const order of orders)
      await putOnOrder(stage.shop.as(stage.hands.desk, at), { ...order, why: "below its point" });
    const delivered = stage.calendar.at(day + 5, "10:15");
    yield delivered;
    await receive(stage, delivered, orders);
  }
}
