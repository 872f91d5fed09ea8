import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { settingDef } from "@/lib/domain/tuning/settings";
import type { FinishInput } from "@/lib/schemas/jobs";
import { saveSheetIn } from "../bikes/sheets";
import { conditionsIn, keepAcceptedIn } from "./acceptedSettings";
import { finishPlainIn, hasRideIn } from "./finishPlain";
import { keepPartsLeftIn } from "./madeParts";
import { measureAgainIn, sameShown } from "./measuredAgain";
import { keepNeedlesLeftIn } from "./needles";
import { demandAccountedIn } from "./partsLeft";
import { keepRechecksIn } from "./rechecks";
import { sheetsOfJob } from "./sheets";
import { demandVersion, jobIn, moveJobIn } from "./states";
import { endAllIn } from "./time/end";

interface LeftValue {
  carburettor: number;
  setting: string;
  value: number;
  how: "measured" | "read" | "assumed";
}

/**
 * Makes a job ready: nothing left to do, every hold point of what was done passed or overridden, and a complete
 * as-left sheet in which each value is confirmed, the idle speed among them. Accepted settings teach the model card. A job that
 * changed no setting leaves no sheet: its id is then 0.
 */
export async function finishJob(shop: ShopHandle, input: FinishInput): Promise<{ sheetId: number }> {
  return shop.write(async (tx) => ({
    sheetId: await once(tx, shop, "finished a job", input, async () => {
      const job = await jobIn(tx, input.jobId);
      demandVersion(job, input.version);
      await demandDone(tx, job);
      await demandAccountedIn(tx, shop, job.id);
      await keepRechecksIn(tx, shop, job, input.odometerKm ?? null);
      if (!(await hasRideIn(tx, job.id))) {
        await freeBaysIn(tx, shop, job.id);
        await finishPlainIn(tx, shop, job, input);
        return 0;
      }
      const sheets = await sheetsOfJob(tx, job);
      const { values, again } = leftValues(input, sheets.fitted, sheets.measured);
      await measureAgainIn(tx, shop, job, again);
      const { spot, ...conditions } = await conditionsIn(tx, shop);
      const sheetId = await saveSheetIn(tx, shop, {
        bikeId: job.bikeId,
        jobId: job.id,
        kind: "asLeft",
        values,
        conditions,
        odometerKm: input.odometerKm,
        odometerRight: input.odometerRight,
        ...(input.note ? { note: input.note } : {}),
      });
      const needles = await keepNeedlesLeftIn(tx, shop, job, sheetId);
      await keepPartsLeftIn(tx, shop, job, sheetId, values);
      await keepAcceptedIn(tx, shop, job, { values, needles }, { ...conditions, spot });
      await endAllIn(tx, shop, job.id, input);
      await freeBaysIn(tx, shop, job.id);
      await moveJobIn(tx, job, ["inWork", "ride"], { state: "ready", finishedAt: shop.now, stopped: "" });
      await audit(tx, shop, "finished", "job", job.id, { sheetId });
      return sheetId;
    }),
  }));
}

/** A job that is ready holds no bay any more: what of its bookings is begun ends now, what was to come is over. */
async function freeBaysIn(tx: ShopTx, shop: ShopHandle, jobId: number): Promise<void> {
  const held = { jobId, state: "held" } as const;
  await tx.booking.updateMany({
    where: { ...held, startsAt: { lt: shop.now }, endsAt: { gt: shop.now } },
    data: { endsAt: shop.now, state: "done", version: { increment: 1 } },
  });
  await tx.booking.updateMany({
    where: { ...held, startsAt: { gte: shop.now } },
    data: { state: "cancelled", version: { increment: 1 } },
  });
  await tx.booking.updateMany({ where: held, data: { state: "done", version: { increment: 1 } } });
}

async function demandDone(tx: ShopTx, job: { id: number; number: string; stopped: string }): Promise<void> {
  if (job.stopped)
    throw new Refusal(
      `Job ${job.number} is stopped: ${job.stopped}.`,
      "Measure again, or ask an owner to override it.",
    );
  const left = await tx.step.findFirst({
    where: { jobId: job.id, state: "todo" },
    select: { position: true, name: true },
    orderBy: { position: "asc" },
  });
  if (left)
    throw new Refusal(
      `Step ${left.position}, “${left.name}”, is still to do.`,
      "Pass it on the card, or skip it with a reason.",
    );
  const held = await tx.holdPoint.findFirst({
    where: { step: { jobId: job.id, state: "done" }, passed: false, overrideReason: "" },
    select: { name: true },
    orderBy: { id: "asc" },
  });
  if (held)
    throw new Refusal(
      `The hold point “${held.name}” is not passed.`,
      "Measure it, or ask an owner to override it.",
    );
}

/** Every value that should be fitted, confirmed, and those of them that a reading on the card measured otherwise; refused with all that is open while something is. */
function leftValues(
  input: FinishInput,
  wanted: readonly { carburettor: number; setting: string }[],
  measured: readonly { carburettor: number; setting: string; value: number }[],
): { values: LeftValue[]; again: LeftValue[] } {
  const again: LeftValue[] = [];
  const values: LeftValue[] = [];
  const fields: Record<string, string> = {};
  for (const [carburettor, settings] of Object.entries(input.values))
    for (const [setting, value] of Object.entries(settings)) {
      const def = settingDef(setting);
      const said = input.hows[carburettor]?.[setting] || "";
      const how = said || input.rest || "";
      const read = measured.find((one) => one.setting === setting && one.carburettor === Number(carburettor));
      if (!def) fields[`values.${carburettor}.${setting}`] = "This is no setting.";
      else if (value === null)
        fields[`values.${carburettor}.${setting}`] = `Enter ${def.name.toLowerCase()}.`;
      else if (value < def.low || value > def.high)
        fields[`values.${carburettor}.${setting}`] = `${def.name} is from ${def.low} to ${def.high}.`;
      else if (read && sameShown(setting, read.value, value))
        values.push({ carburettor: Number(carburettor), setting, value: read.value, how: "measured" });
      else if (read && said !== "measured")
        fields[`values.${carburettor}.${setting}`] =
          `The card measured ${read.value}${def.unit && ` ${def.unit}`}: leave it so, or say that this was measured again.`;
      else if (read) {
        const anew = { carburettor: Number(carburettor), setting, value, how: "measured" } as const;
        values.push(anew);
        again.push(anew);
      } else if (how === "") fields.rest = "Say how you know the values that are not measured on the card.";
      else values.push({ carburettor: Number(carburettor), setting, value, how });
    }
  for (const { carburettor, setting } of wanted)
    if (input.values[carburettor]?.[setting] === undefined)
      fields[`values.${carburettor}.${setting}`] =
        `${settingDef(setting)?.name ?? setting} of carburettor ${carburettor} is missing.`;
  if (!Object.values(input.values).some((settings) => typeof settings.idleSpeedRpm === "number"))
    fields["values.1.idleSpeedRpm"] = "Set the idle speed and enter it: freer running raises it.";
  if (input.cautions !== "on") fields.cautions = "Tick this once you have gone through the cautions.";
  if (Object.keys(fields).length > 0)
    throw new Refusal(
      "The as-left sheet is not complete yet.",
      "Everything that is missing is marked: measure it or read it off the part.",
      fields,
    );
  return { values, again };
}
