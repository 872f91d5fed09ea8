import type { NextRequest } from "next/server";
import type { z } from "zod";
import { audit } from "@/lib/db/record";
import type { Permission } from "@/lib/domain/access/permissions";
import { type ActTime, actTime, clockWords } from "@/lib/domain/offline/actTime";
import { Asking, Refusal } from "@/lib/domain/refusal";
import { log } from "@/lib/log/log";
import { noteRequest } from "@/lib/log/request";
import { type Call, keyOf, type Outcome, parsed } from "./action";
import { note } from "./events";
import { demandSize } from "./formData";
import { limit } from "./limit";
import { enter, NO_FACTOR, type OpenShop } from "./open";
import { guardedPost } from "./route";
import { orShut } from "./shut";

/** An act that a form does, and a device later. */
export interface ShopAct<S extends z.ZodType = z.ZodType> {
  readonly permission: Permission;
  readonly schema: S;
  readonly run: (shop: OpenShop, input: z.output<S>, call: Call) => Promise<Outcome>;
}

/** Says what an act needs, takes in and does. */
export function shopAct<S extends z.ZodType>(
  permission: Permission,
  schema: S,
  run: ShopAct<S>["run"],
): ShopAct<S> {
  return { permission, schema, run };
}

/** What is answered to a device about one act. */
export type KeptAnswer =
  | { readonly is: "done"; readonly told: string | null }
  | { readonly is: "lost" | "signedOut" | "removed" }
  | {
      readonly is: "refused";
      readonly refused: {
        message: string;
        remedy: string;
        mine: readonly string[];
        theirs: readonly string[];
        late?: boolean;
      };
    };

const ACTS = 600;
const TEN_MINUTES = 10 * 60_000;
const CLOSED = {
  "signed out": { is: "signedOut", status: 401 },
  missing: { is: "removed", status: 404 },
  shut: { is: "lost", status: 503 },
} as const;

/** Both sides of what an act is about, for a person to decide: what the device sent, and what the shop has. */
export type BothVersions = (
  shop: OpenShop,
  act: string,
  fields: FormData,
) => Promise<{ mine: readonly string[]; theirs: readonly string[] }>;

/**
 * The one door for acts that a device kept while it had no connection: the same checks, schemas and functions as the forms have,
 * each act once by its key. It is done at the moment it was made; when it arrived is kept beside it, in the same transaction.
 */
export function shopActs(acts: Readonly<Record<string, ShopAct>>, bothVersions: BothVersions) {
  return guardedPost(async (request: NextRequest, context: { params: Promise<Record<string, string>> }) => {
    const shop = await enter((await context.params).shop ?? "");
    if (shop === "no second factor")
      return answered(403, refusedAs(new Refusal(NO_FACTOR.message, NO_FACTOR.remedy)));
    if (typeof shop === "string") return answered(CLOSED[shop].status, { is: CLOSED[shop].is });
    const data = await request.formData().catch(() => null);
    if (!isOf(shop, data?.get("_who"))) return answered(401, { is: "signedOut" });
    const name = String(data?.get("_act") ?? "");
    const act = Object.hasOwn(acts, name) ? acts[name] : undefined;
    if (!data || !act)
      return answered(
        400,
        refusedAs(
          new Refusal(
            "This server does not know such an act.",
            "It may be newer than the page: open the card again.",
          ),
        ),
      );
    if (!shop.can(act.permission)) {
      await note("was refused", shop.by.personId, shop.shopId, act.permission, shop.now);
      return answered(
        403,
        refusedAs(new Refusal(`Your role (${shop.role}) may not do this.`, "Ask an owner of the shop.")),
      );
    }
    try {
      await limit(`acts:${shop.by.personId}`, ACTS, TEN_MINUTES, shop.now);
      demandSize(data, "typed");
      const input = parsed(act.schema, data);
      const key = keyOf(data, input);
      if (key === undefined)
        throw new Refusal(
          "This act came without its key, so it could not be done once.",
          "Do it again on the card.",
        );
      const time = demandTime(data, shop.now);
      const later = asMade(shop, time, { act: name, key });
      const outcome = await orShut(shop, () => act.run(later, input, { key }));
      if (outcome === "shut") return answered(503, { is: "lost" });
      return answered(200, { is: "done", told: clockWords(time) });
    } catch (cause) {
      return answeredTo(cause, () => bothVersions(shop, name, data));
    }
  });
}

/** Whether an act is of whoever is signed in: a device may send what somebody else did before them. Devices of old do not say. */
export function isOf(shop: OpenShop, who: unknown): boolean {
  return typeof who !== "string" || who === `${shop.shopId}:${shop.by.personId}`;
}

/** When the act was made: the device says when by its own clock, and when it sent it. */
export function demandTime(fields: { get(name: string): unknown }, now: Date): ActTime & { at: number } {
  const figure = (name: string) => {
    const text = fields.get(name);
    return typeof text === "string" && /^-?\d{1,15}$/.test(text) ? Number(text) : null;
  };
  const [at, sent] = [figure("_at"), figure("_sent")];
  if (at === null || sent === null)
    throw new Refusal("It is not said when this was done.", "Do it again on the card.");
  const time = actTime({ at, sent, offMs: figure("_off"), arrived: now.getTime() });
  if (time.at === null)
    throw new Refusal(
      "This was done more than a week ago: too long to be taken over unseen.",
      "Look at the card as it is now, and record there what is still true.",
    );
  return { ...time, at: time.at };
}

/** The shop as of the moment an act was made. The first time it is done, when it arrived is written down with it. */
export function asMade(
  shop: OpenShop,
  time: ActTime & { at: number },
  about: { readonly act: string; readonly key: string },
): OpenShop {
  const key = about.key.split(".", 1)[0] ?? "";
  return {
    ...shop,
    now: new Date(time.at),
    write: (run) =>
      shop.write(async (tx) => {
        const before = await tx.once.findUnique({ where: { key }, select: { key: true } });
        const result = await run(tx);
        if (!before)
          await audit(tx, shop, "sent later", "device", null, {
            act: about.act,
            madeAt: new Date(time.at).toISOString(),
            clock: time.clock,
            clockOffMs: time.offMs,
          });
        return result;
      }),
  };
}

async function answeredTo(cause: unknown, both: () => ReturnType<BothVersions>): Promise<Response> {
  noteRequest({ ending: cause instanceof Refusal ? "refused" : "failed" });
  if (!(cause instanceof Refusal)) {
    const id = crypto.randomUUID().slice(0, 8);
    log().error({ bug: id, err: cause }, "An act from a device failed.");
    return answered(500, { is: "lost" });
  }
  if (cause.kind === "tooOften" || cause.kind === "busy") return answered(503, { is: "lost" });
  return answered(200, refusedAs(cause, await both()));
}

function refusedAs(
  cause: Refusal,
  { mine, theirs }: { mine: readonly string[]; theirs: readonly string[] } = { mine: [], theirs: [] },
): KeptAnswer {
  const words = [...new Set(Object.values(cause.fields))].filter((word) => word !== cause.message);
  const message = [cause.message, ...words].join(" ");
  // Only time that ran past the shift is asked about.
  const late = cause instanceof Asking ? { late: true } : {};
  return { is: "refused", refused: { message, remedy: cause.remedy, mine, theirs, ...late } };
}

function answered(status: number, answer: KeptAnswer): Response {
  return Response.json(answer, { status, headers: { "Cache-Control": "no-store" } });
}
