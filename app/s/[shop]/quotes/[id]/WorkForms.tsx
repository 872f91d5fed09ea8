import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { PackageChoice, type PackageOffer } from "../PackageChoice";
import { keepWork, putKit, putPackage } from "./work/actions";

/** A kit as it is chosen. */
export interface KitName {
  readonly id: number;
  readonly code: string;
  readonly name: string;
}

interface Props {
  slug: string;
  /** The quote's id and version; where it is of one work, its key. */
  hidden: Readonly<Record<string, string>>;
}

/** Keeps a written work as a package. */
export function KeepWorkForm({ slug, hidden }: Props) {
  return (
    <Form action={keepWork} shop={slug} hidden={hidden} label="Make this a package">
      <p className="mb-3">A new package with this work as its draft, to be looked over and published.</p>
      <TextField name="code" label="Code" hint="Short: CHAIN" required maxLength={24} mono />
      <SubmitButton>Keep it as a package</SubmitButton>
    </Form>
  );
}

/** Adds a package to a draft. */
export function PackageForm({ slug, hidden, packages }: Props & { packages: readonly PackageOffer[] }) {
  return (
    <Form action={putPackage} shop={slug} hidden={hidden} label="Add a package">
      <PackageChoice packages={packages} />
      <SubmitButton>Add it</SubmitButton>
    </Form>
  );
}

/** Adds a kit to a draft. */
export function KitForm({ slug, hidden, kits }: Props & { kits: readonly KitName[] }) {
  return (
    <Form action={putKit} shop={slug} hidden={hidden} label="Add a kit">
      <SelectField
        name="kitId"
        label="Kit"
        options={kits.map((kit) => ({ value: String(kit.id), label: `${kit.code} ${kit.name}` }))}
      />
      <NumberField name="count" label="How many" initial={1} min={1} max={100} required />
      <SubmitButton>Add it</SubmitButton>
    </Form>
  );
}
