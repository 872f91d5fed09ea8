import { CheckField } from "@/app/_ui/CheckField";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { DateField } from "@/app/_ui/DateField";
import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { PageHead } from "@/app/_ui/PageHead";
import { PlaceFields } from "@/app/_ui/PlaceFields";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import { asksOwnersForFactor } from "@/lib/data/people/shops";
import { keptPrices, keptText } from "@/lib/data/quotes/taxInPrices";
import { TAX_REGIMES } from "@/lib/domain/tax/regimes";
import { sellerNumberRule } from "@/lib/domain/tax/sellerNumber";
import { UNITS } from "@/lib/domain/units/units";
import { backupOf } from "@/lib/gate/backups";
import { open } from "@/lib/gate/open";
import { systemOf } from "@/lib/schemas/bench";
import { shownSettings } from "@/lib/schemas/shop";
import { askForFactor, saveShopSettings } from "../actions";
import { Backup } from "./Backup";
import { localeChoices } from "./choices";
import { EffectsOnQuotes } from "./EffectsOnQuotes";
import { Keeping } from "./Keeping";
import { OnPapers } from "./OnPapers";
import { Severities } from "./Severities";
import { ZoneField } from "./ZoneField";

const percent = (bp: number) => String(bp / 100);

export default async function Settings({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("shop.write", slug);
  const { settings: s, database, now } = shop;
  const kept = await keptPrices(shop.read);
  const shown = shownSettings(s, systemOf(s.units));
  const regime = TAX_REGIMES.find((r) => r.key === s.taxRegime);
  return (
    <>
      <PageHead
        of={shop.name}
        title="Settings"
        sub="Documents sent or issued so far keep what they printed."
      />
      <Form
        action={saveShopSettings}
        shop={slug}
        hidden={{
          version: String(s.version),
          altitudeUnit: shown.altitudeUnit,
          temperatureUnit: shown.temperatureUnit,
          distanceUnit: shown.distanceUnit,
        }}
        label="Settings"
        className="max-w-[760px]"
      >
        <Section title="The shop">
          <div className="grid gap-4 sm:grid-cols-2">
            <TextField name="name" label="Name" initial={s.name} required />
            <TextField name="legalName" label="Legal name" initial={s.legalName} />
            <TextArea name="address" label="Address" initial={s.address} rows={3} />
            <TextField
              name="taxNumber"
              label={sellerNumberRule(s.taxRegime, s.country).name}
              initial={s.taxNumber}
              mono
            />
            <TextField name="phone" label="Phone" type="tel" initial={s.phone} />
            <TextField name="email" label="Email" type="email" initial={s.email} />
          </div>
        </Section>
        <Section title="Place and formats">
          <div className="grid gap-4 sm:grid-cols-2">
            <NumberField
              name="altitude"
              label="Altitude"
              unit={UNITS[shown.altitudeUnit].sign}
              initial={shown.altitude}
            />
            <PlaceFields latitude={s.latitude} longitude={s.longitude} />
            <NumberField
              name="benchTemperature"
              label="Bench temperature"
              unit={UNITS[shown.temperatureUnit].sign}
              initial={shown.benchTemperature}
              hint="Air density is compared with a day like this."
            />
            <ZoneField own={s.zone} />
            <SelectField
              name="locale"
              label="Language and formats"
              initial={s.locale}
              options={localeChoices(s.locale)}
            />
            <SelectField
              name="units"
              label="Units"
              initial={s.units}
              options={[
                { value: "metric", label: "Metric: km, °C, mm, hPa" },
                { value: "uk", label: "Miles, °C, mm, hPa" },
                { value: "us", label: "Miles, °F, inches, inHg" },
              ]}
            />
          </div>
        </Section>
        <Section title="Tax">
          <div className="grid gap-4 sm:grid-cols-2">
            <SelectField
              name="taxRegime"
              label="Tax regime"
              initial={s.taxRegime}
              hint={regime?.note}
              options={TAX_REGIMES.map((r) => ({ value: r.key, label: r.name }))}
            />
            <NumberField
              name="taxRateBp"
              label="Rate, where the regime leaves it open"
              unit="%"
              step={0.5}
              initial={percent(s.taxRateBp)}
            />
            <SelectField
              name="pricesIncludeTax"
              label="Prices are kept and shown"
              initial={s.pricesIncludeTax ? "yes" : "no"}
              options={[
                { value: "yes", label: "with tax in them" },
                { value: "no", label: "without tax" },
              ]}
            />
            {kept.example && (
              <ChoiceField
                name="convertPrices"
                label={`If you switch that: ${keptText(kept)}`}
                options={[
                  {
                    value: "convert",
                    label: "Turn the kept prices, so that customers pay the same",
                    detail: `${kept.example}.`,
                  },
                  {
                    value: "leave",
                    label: "Leave the figures as they are",
                    detail: "Customers then pay less, or more, by the tax.",
                  },
                ]}
              />
            )}
            <div>
              <CheckField
                name="taxLabour"
                label="Labour is taxed"
                initial={s.taxLabour}
                detail="For regimes that tax kinds of line differently."
              />
              <CheckField name="taxParts" label="Parts are taxed" initial={s.taxParts} />
            </div>
          </div>
        </Section>
        <Section title="Quotes and invoices">
          <div className="grid gap-4 sm:grid-cols-2">
            <NumberField
              name="quoteValidDays"
              label="A quote is valid for"
              unit="days"
              initial={s.quoteValidDays}
            />
            <NumberField
              name="remindAfterDays"
              label="Remind of it by mail after"
              unit="days"
              initial={s.remindAfterDays ?? 0}
              hint="Once, while there is no answer; 0 is never."
            />
            <NumberField
              name="remindBeforeDays"
              label="or before it runs out, by"
              unit="days"
              initial={s.remindBeforeDays ?? 0}
              hint="Whichever comes first; between 8 and 18 o'clock."
            />
            <NumberField
              name="paymentDays"
              label="An invoice is due after"
              unit="days"
              initial={s.paymentDays}
            />
            <NumberField name="depositBp" label="Deposit asked" unit="%" initial={percent(s.depositBp)} />
            <NumberField
              name="minimumMarginBp"
              label="Least margin"
              unit="%"
              initial={percent(s.minimumMarginBp)}
            />
            <NumberField
              name="sundriesBp"
              label="Sundries"
              unit="%"
              step={0.5}
              initial={percent(s.sundriesBp)}
              hint="Of labour and parts: cleaner, rags, sealant."
            />
            <NumberField
              name="cashRoundingMinor"
              label="Smallest coin, in hundredths"
              initial={Math.max(1, s.cashRoundingMinor)}
              hint="5 rounds cash to 5 cents; 1 does not round."
            />
            <SelectField
              name="billingUnit"
              label="Time is billed in"
              initial={s.billingUnit}
              options={[
                { value: "minutes", label: "minutes" },
                { value: "tenths", label: "tenths of an hour, rounded up" },
              ]}
            />
            <DateField
              name="deliveryBy"
              kind="time"
              label="Deliveries are here by"
              initial={s.deliveryBy}
              hint="Work that waits for a part begins no earlier on the day it comes."
            />
            <NumberField name="followUpDays" label="Follow up after" unit="days" initial={s.followUpDays} />
            <NumberField
              name="followUpDistance"
              label="or after"
              unit={shown.distanceUnit}
              step={500}
              initial={shown.followUpDistance}
            />
            <TextArea
              name="bankDetails"
              label="Note on paying"
              initial={s.bankDetails}
              rows={3}
              hint="Stands under your account wherever money is asked for. The account itself is entered in Shop > How you are paid."
            />
            <TextArea name="documentNote" label="Note on every document" initial={s.documentNote} rows={3} />
            <TextArea
              name="ownTerms"
              label="Your terms, before a yes"
              initial={s.ownTerms}
              rows={3}
              maxLength={3000}
              hint="Such as a right to withdraw or cancel, where your country asks for one. In your words: we give no advice on law."
            />
          </div>
        </Section>
        <SubmitButton>Save settings</SubmitButton>
      </Form>
      <OnPapers shop={shop} />
      <Severities shop={shop} />
      <EffectsOnQuotes shop={shop} />
      <Keeping shop={shop} />
      <Backup standing={backupOf(database, now)} locale={s.locale} zone={s.zone} />
      <Section title="Ways in" className="mt-8 max-w-[760px]">
        <Form action={askForFactor} shop={slug} label="Ways in">
          <CheckField
            name="ownersNeedFactor"
            label="Owners come in with a second factor only"
            detail="An owner without one is led to set it up before the shop opens for them. Yours must be set up first."
            initial={await asksOwnersForFactor(shop)}
          />
          <SubmitButton tone="second">Save ways in</SubmitButton>
        </Form>
      </Section>
    </>
  );
}
