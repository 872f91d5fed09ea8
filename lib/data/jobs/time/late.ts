import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { type Ask, Asking, Refusal } from "@/lib/domain/refusal";
import type { LateSaid } from "@/lib/schemas/timeEntries";
import type { Clock } from "../../common/zone";
import { clockOf, instantOfField, localField } from "./clock";
import { mayCorrect } from "./correct";
import { entryOf, overrunOf } from "./overrun";
import type { Running } from "./running";

/** A running entry that went on past its person's shift. */
interface Late {
  readonly entry: Running & { readonly staff: { readonly name: string } };
  readonly own: boolean;
  readonly suggestedEnd: Date;
  readonly clock: Clock;
}

/** An end other than now, with the reason that is kept of it. */
interface End {
  readonly endedAt: Date;
  readonly reason: string;
  /** Runs a correction; what it refuses is asked about again. */
  readonly rightOr: <T>(correct: () => Promise<T>) => Promise<T>;
}

/** Those of the entries that went on past their people's shifts. */
export async function lateOf(
  tx: ShopTx,
  shop: ShopHandle,
  entries: readonly Late["entry"][],
): Promise<Late[]> {
  const { clock, forgotten } = await overrunOf(tx, shop, entries.map(entryOf));
  return entries.flatMap((entry) => {
    const found = forgotten.find((one) => one.entry.id === entry.id);
    const own = entry.staffId === shop.by.staffId;
    return found ? [{ entry, own, suggestedEnd: new Date(found.suggestedEnd), clock }] : [];
  });
}

/**
 * When each late entry ended, as was said; those that lasted until now are left out. Asks about all of them while one is not
 * answered. Somebody else's ends with the shift or now, unless whoever answers may correct it: its person puts it right later.
 */
export function askedAbout(
  shop: ShopHandle,
  late: readonly Late[],
  said: LateSaid & { readonly worked?: boolean | undefined },
): Map<number, End> {
  const asks = late.map((one) => askOf(one, one.own || mayCorrect(shop.by.role)));
  const open: Record<string, string> = {};
  const ends = new Map<number, End>();
  for (const one of late) {
    const { entry, own, suggestedEnd, clock } = one;
    const how = (own && said.worked ? "now" : said.late?.[entry.id]) ?? "";
    if (how === "now") continue;
    const free = own || mayCorrect(shop.by.role);
    if (how === "shift" || (how === "other" && free)) {
      const field = `lateEnds.${entry.id}`;
      const asked = again(late, asks, field);
      const endedAt =
        how === "shift"
          ? suggestedEnd
          : asked.at(() => instantOfField(said.lateEnds?.[entry.id] ?? "", clock.zone, field));
      ends.set(entry.id, {
        endedAt,
        reason: own ? "Forgot to stop" : `Forgot to stop; said by ${shop.by.name}`,
        rightOr: asked.correct,
      });
    } else open[`late.${entry.id}`] = "Say when it ended.";
  }
  // Asked for the first time, nothing is wrong yet.
  const first = late.every((one) => !said.late?.[one.entry.id]);
  if (Object.keys(open).length > 0) throw asking(late, asks, first ? {} : open);
  return ends;
}

/** What was said of an end and cannot be: the questions stay, with what is wrong beside the field. */
function again(late: readonly Late[], asks: readonly Ask[], field: string) {
  const told = (cause: unknown): never => {
    if (!(cause instanceof Refusal)) throw cause;
    const words = Object.values(cause.fields)[0] ?? cause.message;
    throw asking(late, asks, { [field]: words });
  };
  return {
    at: (read: () => Date): Date => {
      try {
        return read();
      } catch (cause) {
        return told(cause);
      }
    },
    correct: async <T>(run: () => Promise<T>): Promise<T> => run().catch(told),
  };
}

function askOf({ entry, own, suggestedEnd, clock }: Late, free: boolean): Ask {
  const whose = own ? "Your time" : `${entry.staff.name}’s time`;
  return {
    name: `late.${entry.id}`,
    question: `${whose} since ${clockOf(entry.startedAt, clock)}`,
    options: [
      { value: "now", label: own ? "I worked until now" : "Work went on until now" },
      { value: "shift", label: `It ended at ${clockOf(suggestedEnd, clock)}` },
      ...(free ? [{ value: "other", label: "It ended at another time" }] : []),
    ],
    ...(free
      ? {
          moment: {
            name: `lateEnds.${entry.id}`,
            label: "The other time",
            initial: localField(suggestedEnd, clock.zone),
          },
        }
      : {}),
  };
}

function asking(late: readonly Late[], asks: readonly Ask[], fields: Readonly<Record<string, string>>) {
  const [first, ...more] = late;
  if (!first) throw new Error("Nothing is late.");
  const { entry, own, suggestedEnd, clock } = first;
  const whose = own ? "Your time" : `${entry.staff.name}’s time on this job`;
  const others = more.length === 0 ? "" : ` So has ${more.map((one) => one.entry.staff.name).join(", ")}’s.`;
  return new Asking(
    `${whose} has run since ${clockOf(entry.startedAt, clock)}, past the end of the shift at ${clockOf(suggestedEnd, clock)}.${others}`,
    "Say when that work ended, then send this again: what you typed is still here.",
    asks,
    fields,
  );
}
