"use client";
import { useRouter } from "next/navigation";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PickField } from "@/app/_ui/PickField";
import type { Pick } from "@/lib/schemas/picks";

/** Whose money it is: the page then lists what is open of them. Without scripts the newest customers are links. */
export function PickCustomer({
  shop,
  line,
  newest,
  chosen,
}: {
  shop: string;
  line: number;
  newest: readonly Pick[];
  chosen: Pick | null;
}) {
  const router = useRouter();
  const path = `/s/${shop}/invoices/bank/${line}`;
  return (
    <form method="get" action={path} className="max-w-md">
      <PickField
        shop={shop}
        from="customers"
        name="customer"
        label="Whose money it is"
        newest={newest}
        chosen={chosen}
        onPick={(row) => row && router.replace(`${path}?customer=${row.value}`, { scroll: false })}
      />
      <noscript>
        <button type="submit">Show what is open</button>
      </noscript>
      {chosen && (
        <p className="mb-3">
          <LinkButton href={`/s/${shop}/customers/${chosen.value}`} tone="quiet">
            Open {chosen.label}
          </LinkButton>
        </p>
      )}
    </form>
  );
}
