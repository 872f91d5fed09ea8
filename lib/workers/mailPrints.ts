import { setTimeout } from "node:timers/promises";
import { Refusal } from "@/lib/domain/refusal";
import { inWorker, type Tasks } from "./pool";

type Enclosed = Parameters<Tasks["printEnclosed"]>[0];

const TRIES = 6;
const PAUSE_MS = 5_000;

/** Prints what goes with a mail. Nobody looks on, so it waits where the server is busy: the mail would else be marked failed. */
export async function printForMail(shop: { readonly slug: string }, enclosed: Enclosed) {
  for (let tried = 1; ; tried++)
    try {
      return await inWorker(shop, "printEnclosed", enclosed, { deadlineMs: 60_000 });
    } catch (cause) {
      if (!(cause instanceof Refusal) || cause.kind !== "busy" || tried === TRIES) throw cause;
      await setTimeout(PAUSE_MS);
    }
}
