import type { Metadata } from "next";
import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { SignOutForm } from "@/app/_ui/offline/SignOutForm";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { hasFactor } from "@/lib/data/people/secondFactor";
import { shopsOf } from "@/lib/data/people/shops";
import { ROLE_WORDS } from "@/lib/domain/access/permissions";
import { COUNTRY_PRESETS } from "@/lib/domain/tax/presets";
import { person } from "@/lib/gate/personAction";
import { sampleOffered } from "@/lib/gate/sample";
import { changeOwnPassword, openAnotherShop, signOut, signOutEverywhere } from "../actions";
import { PresentPassword } from "./PresentPassword";

export const metadata: Metadata = { title: "You" };

const WAYS_IN = [
  ["second-factor", "Second factor", "Off: signing in asks for the password alone"],
  ["devices", "Signed-in devices", "Where you are signed in, each ended by itself"],
  ["security", "What happened", "Sign-ins, refusals and changes of your sign-in"],
] as const;

export default async function Account() {
  const session = await person("/account");
  const shops = await shopsOf(session.personId);
  const factor = await hasFactor(session.personId);
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
        {sampleOffered() && (
          <p className="mt-2 text-soft">
            To try things in:{" "}
            <Link href="/account/sample" className="text-brass underline underline-offset-4">
              sample shop
            </Link>
          </p>
        )}
      </Section>
      <Section title="Ways in">
        <ul>
          {WAYS_IN.map(([path, name, what]) => (
            <li key={path} className="border-hair border-b">
              <Link
                href={`/account/${path}`}
                className="grid min-h-12 gap-x-6 py-2.5 no-underline sm:grid-cols-[200px_1fr]"
              >
                <strong>{name}</strong>
                <span className="text-soft">{path === "second-factor" && factor ? "On" : what}</span>
              </Link>
            </li>
          ))}
        </ul>
      </Section>
      <Section title="Password">
        <Form action={changeOwnPassword} label="Change your password" className="grid gap-4">
          <PresentPassword />
          <TextField
            name="password"
            label="New password"
            type="password"
            autoComplete="new-password"
            hint="At least 10 characters. A few words are fine."
            required
          />
          <SubmitButton tone="second">Change it</SubmitButton>
        </Form>
      </Section>
      <Section title="Leave">
        <div className="flex flex-wrap gap-3">
          <SignOutForm action={signOut} label="Sign out">
            Sign out
          </SignOutForm>
          <SignOutForm action={signOutEverywhere} label="Sign out everywhere">
            Sign out on every device
          </SignOutForm>
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
