import { revalidatePath } from "next/cache";
import { cookies, headers } from "next/headers";
import { redirect, unstable_rethrow } from "next/navigation";
import type { z } from "zod";
import { requestKey } from "@/lib/db/once";
import { ShopShut } from "@/lib/db/shopFaults";
import type { Permission } from "@/lib/domain/access/permissions";
import { Asking, Refusal } from "@/lib/domain/refusal";
import { log } from "@/lib/log/log";
import { noteRequest } from "@/lib/log/request";
import type { FormAction, FormState, ScreenChange, UndoOffer } from "@/lib/schemas/formState";
import { changeOf, markOf, type ScreenView } from "./change";
import { note } from "./events";
import { demandSize, type FormSize, formObject, typedValues } from "./formData";
import { enter, NO_FACTOR, type OpenShop } from "./open";
import { demandOurOrigin } from "./origin";
import { shown, shownAs } from "./shownLately";
import { orShut } from "./shut";

/** What an action answers: where to go, what to say, how to take it back. */
export interface Outcome {
  readonly to?: string;
  readonly toast?: string;
  readonly undo?: UndoOffer;
  /** Handed back to the form, e.g. a link shown once. */
  readonly shown?: Readonly<Record<string, string>>;
}

/** What a screen shows of the record that an act's input names; null where the act was not made on that screen. */
export type ReadScreen<I> = (shop: OpenShop, input: I) => Promise<ScreenView | null>;

/** Input of every action besides its own fields. */
export interface Call {
  /** The form's idempotency key, bound to its content: twice the same is the same request. */
  readonly key: string | undefined;
}

/**
 * The one way a signed-in person's form writes: origin, session, membership and permission are checked, the
 * input parsed, refusals returned to the form with what was typed; anything else is a bug, logged with an id.
 * With a `screen`, an act made on it by a live page is answered by what it changed there; any other draws the page anew.
 */
export function action<S extends z.ZodType>(
  permission: Permission,
  schema: S,
  run: (shop: OpenShop, input: z.output<S>, call: Call) => Promise<Outcome>,
  size: FormSize = "typed",
  screen?: ReadScreen<z.output<S>>,
): FormAction {
  const takesIn = { schema, size };
  return (before, data) =>
    answer(before, data, takesIn, async (input) => {
      const slug = String(data.get("_shop") ?? "");
      const shop = await enter(slug);
      if (shop === "signed out")
        throw new Refusal(
          "You are signed out.",
          "Sign in again, then send this once more: what you typed is still here.",
          {},
          "signedOut",
        );
      if (shop === "shut") throw new ShopShut();
      if (shop === "missing") throw new Refusal("There is no such shop for you.", "", {}, "missing");
      if (shop === "no second factor")
        throw new Refusal(NO_FACTOR.message, NO_FACTOR.remedy, {}, "forbidden");
      if (!shop.can(permission)) {
        await note("was refused", shop.by.personId, shop.shopId, permission, shop.now);
        throw new Refusal(
          `Your role (${shop.role}) may not do this.`,
          "Ask an owner of the shop.",
          {},
          "forbidden",
        );
      }
      const given = input();
      const outcome = await orShut(shop, async () => {
        const seen = await seenBefore(shop.shopId, screen && (() => screen(shop, given)), data);
        const done = await run(shop, given, { key: keyOf(data, given) });
        // The act is done: what fails from here on fails again, and is told, where the page is drawn.
        const { to, ...stays } = done;
        const now = seen && (!to || to === seen.at) ? await screen?.(shop, given).catch(() => null) : null;
        const change = seen && now ? changeOf(seen, now) : null;
        // The next act on it will name this one.
        if (change && now) shown(shop.shopId, now);
        return change ? { ...stays, change } : done;
      });
      if (outcome === "shut") throw new ShopShut();
      if (!("change" in outcome)) revalidatePath(`/s/${slug}`, "layout");
      return outcome;
    });
}

/**
 * The view of the screen that an act was made on: as it was shown, so that what changed outside of the record since (stock, prices,
 * settings) is in the answer too; else read anew, where the asker has just this one before them.
 */
async function seenBefore(
  shopId: string,
  read: (() => Promise<ScreenView | null>) | undefined,
  data: FormData,
) {
  const mark = data.get("_seen");
  if (!read || typeof mark !== "string") return null;
  const view = shownAs(shopId, mark) ?? (await read());
  return view && markOf(view) === mark ? view : null;
}

/** The form's key, bound to what the form says: what an action makes of that may change between two tries. */
export function keyOf(data: FormData, input: unknown): string | undefined {
  const key = data.get("_key");
  return requestKey(typeof key === "string" && /^[\w-]{8,80}$/.test(key) ? key : undefined, input);
}

/**
 * Shared by every kind of action: parse, run, and turn what happened into a form's state. `run` asks for the input once the
 * caller may act; nothing of what came is sent back before.
 */
export async function answer<S extends z.ZodType>(
  before: FormState,
  data: FormData,
  { schema, size = "typed" }: { readonly schema: S; readonly size?: FormSize },
  run: (input: () => z.output<S>) => Promise<Outcome & { readonly change?: ScreenChange | null }>,
): Promise<FormState> {
  const seq = (before?.seq ?? 0) + 1;
  let outcome: Awaited<ReturnType<typeof run>>;
  let passed = false;
  try {
    demandOurOrigin(await headers());
    outcome = await run(() => {
      passed = true;
      demandSize(data, size);
      return parsed(schema, data);
    });
  } catch (cause) {
    unstable_rethrow(cause);
    return { seq, ok: false, ...(passed ? { values: typedValues(data) } : {}), ...told(cause) };
  }
  if (outcome.to) {
    if (outcome.toast)
      (await cookies()).set("said", outcome.toast, { maxAge: 20, path: "/", sameSite: "lax" });
    redirect(outcome.to);
  }
  return {
    seq,
    ok: true,
    ...(outcome.toast ? { toast: outcome.toast } : {}),
    ...(outcome.undo ? { undo: outcome.undo } : {}),
    ...(outcome.shown ? { shown: outcome.shown } : {}),
    ...(outcome.change ? { change: outcome.change } : {}),
  };
}

/** What a form says, as its schema reads it; refuses with what is wrong, by field. */
export function parsed<S extends z.ZodType>(schema: S, data: FormData): z.output<S> {
  const read = schema.safeParse(formObject(data));
  if (read.success) return read.data;
  const fields: Record<string, string> = {};
  for (const issue of read.error.issues) fields[issue.path.join(".")] ??= issue.message;
  throw new Refusal("Some of this cannot be saved yet.", "Look at the marked fields.", fields);
}

function told(
  cause: unknown,
): Pick<FormState, "message" | "remedy" | "fields" | "asks" | "repeated" | "signedOut" | "bug"> {
  noteRequest({ ending: cause instanceof Refusal ? "refused" : "failed" });
  if (cause instanceof Refusal)
    return {
      message: cause.message,
      remedy: cause.remedy,
      fields: { ...cause.fields },
      ...(cause instanceof Asking ? { asks: cause.asks } : {}),
      ...(cause.kind === "repeated" ? { repeated: true } : {}),
      ...(cause.kind === "signedOut" ? { signedOut: true } : {}),
    };
  const id = crypto.randomUUID().slice(0, 8);
  log().error({ bug: id, err: cause }, "An action failed.");
  return {
    message: `Something failed on our side (${id}). Nothing was saved.`,
    remedy: "What you typed is still here: try once more, and tell whoever runs the server this number.",
    fields: {},
    bug: id,
  };
}
