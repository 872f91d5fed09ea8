import { isDeepStrictEqual } from "node:util";
import { joinedReads } from "@/lib/db/joined/reads";
import { type ShopHandle, shopStore } from "@/lib/db/shop";

type Delegate = Record<string, (args?: unknown) => Promise<unknown>>;

const READS = new Set([
  "findMany",
  "findFirst",
  "findUnique",
  "findFirstOrThrow",
  "findUniqueOrThrow",
  "count",
  "aggregate",
  "groupBy",
]);

/** A shop whose every read is asked twice, joined and by Prisma's client alone, and fails where the two differ. */
export function askedTwice(shop: ShopHandle): ShopHandle {
  const plain = shopStore(shop).read;
  const joined = joinedReads(plain, "shop", shop.database);
  const read = new Proxy(joined, {
    get(target, name) {
      const [ours, theirs] = [Reflect.get(target, name), Reflect.get(plain, name)] as unknown as Delegate[];
      if (typeof ours !== "object" || !("findMany" in ours)) return ours;
      return new Proxy(ours, {
        get: (_, act) => {
          const own = ours[String(act)];
          if (!READS.has(String(act))) return own;
          return async (args?: unknown) => {
            const [one, other] = await Promise.all([own?.(args), theirs?.[String(act)]?.(args)]);
            if (!isDeepStrictEqual(plainly(one), plainly(other)))
              throw new Error(
                `${String(name)}.${String(act)}(${JSON.stringify(args)}) reads\n${JSON.stringify(one)}\nand by Prisma\n${JSON.stringify(other)}`,
              );
            return one;
          };
        },
      });
    },
  });
  return { ...shop, read };
}

/** Prisma's rows have no prototype of their own kind everywhere; dates stay dates. */
const plainly = (value: unknown) => structuredClone(value);
