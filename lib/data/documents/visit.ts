import { z } from "zod";
import type { PrintedVisit } from "@/lib/domain/schedule/visit";
import { text, whole } from "./pieces";
import { readVersion, type Versions } from "./versions";

/** What a booking said when its mail was written: kept with the mail, since the booking goes on changing. */
export interface FrozenVisit extends PrintedVisit {
  readonly format: "throttlewright-visit";
  readonly version: 1;
}

export function frozenVisit(printed: PrintedVisit): FrozenVisit {
  return { format: "throttlewright-visit", version: 1, ...printed };
}

const instant = z.iso.datetime();

const Version1 = z.looseObject({
  format: z.literal("throttlewright-visit"),
  version: z.literal(1),
  uid: text,
  sequence: whole,
  startsAt: instant,
  endsAt: instant,
  summary: text,
  location: text,
  description: text,
  cancelled: z.boolean(),
  saidAt: instant,
}) satisfies z.ZodType<FrozenVisit>;

const VISITS: Versions<FrozenVisit> = {
  format: "throttlewright-visit",
  what: "a visit",
  readers: { 1: Version1 },
};

/** A visit out of a mail. Those of the first mails named no format; they are read as version 1. */
export function storedVisit(json: unknown): FrozenVisit {
  const { format } = (json ?? {}) as { format?: unknown };
  return readVersion(VISITS, format === undefined ? frozenVisit(json as PrintedVisit) : json);
}
