import { Prisma } from "./generated/sqlite/shop/client";

/** Written to a JSON column: no value, as it was before anything stood there. */
export const NO_JSON = Prisma.DbNull;
