import type { Metadata } from "next";
import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { NumberField } from "@/app/_ui/NumberField";
import { PageHead } from "@/app/_ui/PageHead";
import { PlaceFields } from "@/app/_ui/PlaceFields";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { COUNTRY_PRESETS } from "@/lib/domain/tax/presets";
import { signUp } from "../actions";

export const metadata: Metadata = { title: "Open a shop" };

export default function SignUp() {
  return (
    <div className="mx-auto max-w-[520px]">
      <PageHead title="Open a shop" sub="You become its owner." />
      <Form action={signUp} label="Open a shop" className="grid gap-4">
        <Section title="You">
          <div className="grid gap-4">
            <TextField name="name" label="Your name" autoComplete="name" required />
            <TextField name="email" label="Email" type="email" autoComplete="username" required />
            <TextField
              name="password"
              label="Password"
              type="password"
              autoComplete="new-password"
              hint="At least 10 characters. A few words are fine."
              required
            />
          </div>
        </Section>
        <Section title="The shop">
          <div className="grid gap-4">
            <TextField name="shopName" label="Shop name" autoComplete="organization" required />
            <SelectField
              name="country"
              label="Country"
              hint="Sets currency, tax, time zone and formats to start from. All can be changed later."
              initial="AU"
              options={COUNTRY_PRESETS.map((preset) => ({ value: preset.country, label: preset.name }))}
            />
            <NumberField
              name="altitudeM"
              label="Altitude of the shop"
              unit="m"
              hint="Settings are computed for it. Leave blank if unsure."
            />
            <PlaceFields />
          </div>
        </Section>
        <SubmitButton>Open the shop</SubmitButton>
      </Form>
      <p className="mt-6">
        <Link href="/signin">I have a sign-in already</Link>
      </p>
    </div>
  );
}
