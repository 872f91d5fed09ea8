import type { ShopHandle } from "@/lib/db/shop";
import type { Role } from "@/lib/domain/access/permissions";

/** A demo shop as its people use it: a handle for a role at a moment. */
export interface DemoShop {
  as(role: Role, when: Date): ShopHandle;
}
