import { CheckField } from "@/app/_ui/CheckField";
import { DateText } from "@/app/_ui/DateText";
import { Form } from "@/app/_ui/Form";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { dayAfter } from "@/lib/domain/schedule/localTime";
import type { OpenShop } from "@/lib/gate/open";
import { holidayRegions, publicHolidays, regionOfZone } from "@/lib/outside/holidays";
import { closeOnHolidays } from "../actions";

interface Props {
  shop: OpenShop;
  today: string;
  closures: readonly { readonly fromDay: string; readonly toDay: string }[];
  /** Chosen in the address; else the one the shop's time zone points at. */
  region: string | undefined;
}

/** The public holidays of the year ahead on which the shop is not closed yet. */
export function Holidays({ shop, today, closures, region: chosen }: Props) {
  const { country, zone, locale } = shop.settings;
  const regions = holidayRegions(country);
  const known = chosen === "" || regions.some((r) => r.code === chosen);
  const region = known ? (chosen ?? "") : regionOfZone(country, zone);
  const ahead = publicHolidays(country, region, today, dayAfter(today, 365)).filter(
    ({ day }) => !closures.some((c) => c.fromDay <= day && day <= c.toDay),
  );
  const where = regions.find((r) => r.code === region)?.name;
  return (
    <Section title="Public holidays">
      {regions.length > 0 && (
        <form method="get" className="mb-3 flex flex-wrap items-end gap-3">
          <SelectField
            name="region"
            label="Region"
            initial={region}
            options={[
              { value: "", label: "The whole country" },
              ...regions.map(({ code, name }) => ({ value: code, label: name })),
            ]}
          />
          <SubmitButton tone="second">Show its days</SubmitButton>
        </form>
      )}
      {ahead.length === 0 ? (
        <p className="text-soft">The shop is closed on every public holiday known for the year ahead.</p>
      ) : (
        <Form
          action={closeOnHolidays}
          shop={shop.slug}
          hidden={{ region }}
          label="Close on public holidays"
          className="max-w-[820px]"
        >
          <p className="mb-2 text-soft">
            The year ahead{where ? ` in ${where}` : ""}, from a public table: check it against your region's
            own notice. Half days are left to you.
          </p>
          <div className="mb-3 grid gap-x-6 sm:grid-cols-2">
            {ahead.map(({ day, name }) => (
              <CheckField
                key={day}
                name="days[]"
                value={day}
                initial
                ruled
                label={name}
                figure={<DateText date={day} locale={locale} />}
              />
            ))}
          </div>
          <SubmitButton tone="second">Close on the ticked days</SubmitButton>
        </Form>
      )}
    </Section>
  );
}
