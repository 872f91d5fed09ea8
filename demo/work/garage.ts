import { createBike } from "@/lib/data/bikes/bikes";
import { saveSheet } from "@/lib/data/bikes/sheets";
import { createCustomer } from "@/lib/data/customers/customers";
import { recordIntake } from "@/lib/data/intakes/record";
import type { SheetValue } from "@/lib/domain/sheets/check";
import { NewBikeSchema } from "@/lib/schemas/bikes";
import { CustomerSchema } from "@/lib/schemas/customers";
import { IntakeSchema } from "@/lib/schemas/intakes";
import type { Stage } from "../stage";

export interface DemoCustomer {
  readonly name: string;
  readonly phone: string;
  readonly email?: string;
  readonly address: string;
  readonly business?: { readonly taxNumber: string };
  readonly discount?: { readonly percent: string; readonly name: string };
  readonly notes?: string;
}

export interface DemoBike {
  readonly customer: number;
  readonly modelCardId: number;
  readonly year: number;
  readonly plate: string;
  readonly frameNumber: string;
  readonly colour: string;
  readonly odometerKm: number;
  readonly complaint: string;
  /** What was found on it, per carburettor, and where it had run well. */
  readonly found: readonly SheetValue[];
  readonly ranAtM: number;
  /** What was felt on a ride before anything was quoted, as its form says it. */
  readonly felt?: Readonly<Record<"throttle" | "condition" | "engine" | "sign", string>>;
}

/** The shop's customers and bikes, each entered on the day it first comes up. */
export class Garage {
  private readonly customers = new Map<number, number>();
  private readonly bikes = new Map<number, number>();
  private readonly km = new Map<number, number>();

  constructor(
    private readonly stage: Stage,
    private readonly people: readonly DemoCustomer[],
    private readonly list: readonly DemoBike[],
  ) {}

  odometer(bike: number): number {
    return this.list[bike]?.odometerKm ?? 0;
  }

  /** So many kilometres more since a bike was first here; answers all of them. */
  ridden(bike: number, km: number): number {
    const all = (this.km.get(bike) ?? 0) + km;
    this.km.set(bike, all);
    return all;
  }

  /** The name of a bike's owner. */
  ownerOf(bike: number): string {
    return this.people[this.list[bike]?.customer ?? -1]?.name ?? "";
  }

  async customer(index: number, when: Date): Promise<number> {
    const known = this.customers.get(index);
    if (known !== undefined) return known;
    const one = this.people[index];
    if (!one) throw new Error(`The demo has no customer ${index}.`);
    const { name, phone, address, email = "", notes = "" } = one;
    const form = {
      name,
      phone,
      address,
      email,
      notes,
      ...(one.business ? { business: "on", taxNumber: one.business.taxNumber } : {}),
      ...(one.discount ? { discountPercent: one.discount.percent, discountClass: one.discount.name } : {}),
    };
    const id = await createCustomer(
      this.stage.shop.as(this.stage.hands.desk, when),
      CustomerSchema.parse(form),
    );
    this.customers.set(index, id);
    return id;
  }

  /** A bike's id; entered with its owner and its as-found sheet if the shop has not seen it yet. */
  async bike(index: number, when: Date): Promise<number> {
    const known = this.bikes.get(index);
    if (known !== undefined) return known;
    const one = this.list[index];
    if (!one) throw new Error(`The demo has no bike ${index}.`);
    const customerId = await this.customer(one.customer, when);
    const { modelCardId, year, plate, frameNumber, colour, odometerKm, complaint } = one;
    const form = {
      card: "known",
      customerId: String(customerId),
      modelCardId: String(modelCardId),
      year: String(year),
      plate,
      frameNumber,
      colour,
      odometerKm: String(odometerKm),
      complaint,
      // Every sixth is ridden in dust: the third of the uses that a shop begins with.
      severityId: index % 6 === 3 ? "3" : "",
    };
    const id = await createBike(this.stage.shop.as(this.stage.hands.desk, when), NewBikeSchema.parse(form));
    this.bikes.set(index, id);
    const conditions = { altitudeM: one.ranAtM, season: "autumn", temperatureC: null, humidityPercent: null };
    await saveSheet(this.stage.shop.as(this.stage.hands.floor, when), {
      bikeId: id,
      kind: "asFound",
      values: one.found,
      odometerKm,
      conditions,
    });
    if (this.bikes.size === 1 || one.felt)
      await recordIntake(
        this.stage.shop.as(this.stage.hands.floor, when),
        IntakeSchema.parse({
          bikeId: String(id),
          complaint,
          changedBefore: "Nothing that the owner knows of",
          odometerKm: String(odometerKm),
          fuelUse: "5.8",
          observations: { 0: one.felt ?? HESITATES },
          cylinders: { 1: { plug: "tan", compressionKpa: "11.4 bar", intakeClearanceMm: "0.10" } },
        }),
      );
    return id;
  }
}

/** What the shop's first bike did when it came. */
const HESITATES = { throttle: "closed", condition: "snap", engine: "hot", sign: "hesitates" };
