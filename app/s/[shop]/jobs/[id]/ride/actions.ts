"use server";
import { recordLog } from "@/lib/data/rides/log";
import { action } from "@/lib/gate/action";
import { RideLogSchema } from "@/lib/schemas/rideLog";

export const readRideLog = action(
  "job.work",
  RideLogSchema,
  async (shop, input, call) => {
    const { rideId, steady } = await recordLog(shop, { ...input, key: call.key });
    return {
      to: `/s/${shop.slug}/jobs/${input.jobId}/ride`,
      toast: rideId
        ? `${steady} steady samples read: see what they point at.`
        : "On target at every opening the log held. Say so below, if the rest of the ride was good.",
    };
  },
  "file",
);
