import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { KitView } from "@/lib/data/kits/read";
import { majorText } from "@/lib/domain/money/major";
import { keepKit } from "./actions";
import { KitParts } from "./KitParts";

interface Props {
  slug: string;
  currency: string;
  kit: KitView | undefined;
}

/** A kit: what is in it, and what the whole costs where that is not the sum of its parts. */
export function KitForm({ slug, currency, kit }: Props) {
  const hidden: Record<string, string> = kit ? { id: String(kit.id), version: String(kit.version) } : {};
  return (
    <Form action={keepKit} shop={slug} hidden={hidden} label="Kit" className="max-w-[46rem]">
      <div className="grid gap-x-6 sm:grid-cols-2">
        <TextField
          name="code"
          label="Code"
          hint="Short, without spaces: KIT-BOWL-34"
          initial={kit?.code}
          required
          mono
          maxLength={40}
        />
        <TextField name="name" label="Name" initial={kit?.name} required maxLength={120} />
        <TextField
          name="fits"
          label="For which carburettor"
          hint="Screw, seal, filter or service kit, and of what"
          initial={kit?.fits}
          maxLength={120}
        />
        <TextField
          name="price"
          label={`Price of the whole, ${currency}`}
          hint="Empty: what its parts cost"
          initial={kit?.priceMinor == null ? "" : majorText(kit.priceMinor, currency)}
          inputMode="decimal"
          mono
        />
      </div>
      <KitParts shop={slug} rows={kit?.parts ?? []} />
      <SubmitButton size="act" className="mt-4 max-sm:w-full">
        Save the kit
      </SubmitButton>
    </Form>
  );
}
