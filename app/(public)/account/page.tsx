import type { Metadata } from "next";
import Link from "next/link";
import { Form } from "@/app/_ui/Form";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { shopsOf } from "@/lib/data/people/shops";
import { ROLE_WORDS } from "@/lib/domain/access/permissions";
import { COUNTRY_PRESETS } from "@/lib/domain/tax/presets";
import { person } from "@/lib/gate/personAction";
import { changeOwnPassword, openAnotherShop, signOut, signOutEverywhere } from "../actions";

export const metadata: Metadata = { title: "You" };

export default async function Account() {
  const session = await person("/account");
  const shops = await shopsOf(session.personId);
  return (
    <div className="mx-auto grid max-w-[640px] gap-6">
      <PageHead title={session.name} sub={session.email} />
      <Section title="Your shops">
        <ul>
          {shops.map((shop) => (
            <li key={shop.slug} className="flex flex-wrap justify-between gap-x-4 border-hair border-b py-2">
              <Link href={`/s/${shop.slug}`} className="flex min-h-11 items-center font-bold">
                {shop.name}
              </Link>
              <span className="flex items-center text-soft">{ROLE_WORDS[shop.role]}</span>
            </li>
          ))}
        </ul>
        {shops.length === 0 && <p>You belong to no shop. Open one below, or follow an invitation.</p>}
      </Section>
      <Section title="Password">
        <Form action={changeOwnPassword} label="Change your password" className="grid gap-4">
          <TextField
            name="currentPassword"
            label="Present password"
            type="password"
            autoComplete="current-password"
            required
          />
          <TextField
            name="password"
            label="New password"
            type="password"
            autoComplete="new-password"
            hint="At least 10 characters."
            required
          />
          <SubmitButton tone="second">Change it</SubmitButton>
        </Form>
      </Section>
      <Section title="Leave">
        <div className="flex flex-wrap gap-3">
          <Form action={signOut} label="Sign out">
            <SubmitButton tone="second">Sign out</SubmitButton>
          </Form>
          <Form action={signOutEverywhere} label="Sign out everywhere">
            <SubmitButton tone="second">Sign out on every device</SubmitButton>
          </Form>
        </div>
      </Section>
      <Section title="Open another shop">
        <Form action={openAnotherShop} label="Open another shop" className="grid gap-4">
          <TextField name="shopName" label="Shop name" required />
          <SelectField
            name="country"
            label="Country"
            initial="AU"
            options={COUNTRY_PRESETS.map((preset) => ({ value: preset.country, label: preset.name }))}
          />
          <SubmitButton tone="second">Open it</SubmitButton>
        </Form>
      </Section>
    </div>
  );
}
