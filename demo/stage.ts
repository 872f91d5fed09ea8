import type { ShopHandle } from "@/lib/db/shop";
import type { Role } from "@/lib/domain/access/permissions";
import type { Calendar } from "./calendar";

/** A demo shop as its people use it: a handle for a role at a moment. */
export interface DemoShop {
  as(role: Role, when: Date): ShopHandle;
  /** One of its customers, come by a signed link. */
  asCustomer(when: Date): ShopHandle;
}

/** What every course of events in a demo shop needs to know of it. */
export interface Stage {
  readonly shop: DemoShop;
  readonly calendar: Calendar;
  readonly now: Date;
  /** Bays by name, and staff by their role. */
  readonly bays: readonly number[];
  readonly staff: Readonly<Partial<Record<Role, number>>>;
  /** Packages by code. */
  readonly packages: Readonly<Record<string, number>>;
  /** What the shop speaks. */
  readonly tongue: "en" | "nb";
  /** Who does the work and who sells it. */
  readonly hands: { readonly floor: Role; readonly desk: Role };
}
