import { CheckField } from "@/app/_ui/CheckField";
import { DateField } from "@/app/_ui/DateField";
import { DateText } from "@/app/_ui/DateText";
import { Form } from "@/app/_ui/Form";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { gradeNames, workingTimes } from "@/lib/data/shop/hours";
import { gradesOf } from "@/lib/domain/schedule/grades";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { open } from "@/lib/gate/open";
import { addOff, makeBay, removeOff, saveWorkingHours, useBay } from "../actions";
import { Holidays } from "./Holidays";

const DAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"] as const;

type Spans = readonly { from: string; to: string }[];

function written(hours: unknown, day: number): string {
  const spans = (hours as Record<string, Spans> | null)?.[String(day)] ?? [];
  return spans.map((span) => `${span.from}-${span.to}`).join(", ");
}

interface Props {
  params: Promise<{ shop: string }>;
  searchParams: Promise<{ region?: string }>;
}

export default async function Hours({ params, searchParams }: Props) {
  const [{ shop: slug }, { region }] = await Promise.all([params, searchParams]);
  const shop = await open("shop.write", slug);
  const { locale, zone } = shop.settings;
  const today = dayOf(shop.now.getTime(), zone);
  const [{ bays, staff, closures }, grades] = await Promise.all([
    workingTimes(shop, today),
    gradeNames(shop),
  ]);
  const off = [
    ...closures.map((c) => ({ ...c, kind: "closure" as const, who: "Whole shop" })),
    ...staff.flatMap((s) => s.absences.map((a) => ({ ...a, kind: "absence" as const, who: s.name }))),
  ].sort((x, y) => x.fromDay.localeCompare(y.fromDay));
  return (
    <>
      <PageHead of={shop.name} title="Bays and hours" />
      <Section title="Bays">
        <ul className="max-w-[640px]">
          {bays.map((bay) => (
            <li
              key={bay.id}
              className="flex flex-wrap items-center justify-between gap-3 border-hair border-b py-2"
            >
              <span>
                <strong>{bay.name}</strong> {!bay.active && <span className="text-soft">out of use</span>}
              </span>
              <Form
                action={useBay}
                shop={slug}
                hidden={{
                  id: String(bay.id),
                  version: String(bay.version),
                  active: bay.active ? "no" : "yes",
                }}
                label={`Use of ${bay.name}`}
              >
                <SubmitButton tone="quiet">
                  {bay.active ? `Take ${bay.name} out of use` : `Use ${bay.name} again`}
                </SubmitButton>
              </Form>
            </li>
          ))}
        </ul>
        <Form action={makeBay} shop={slug} label="Add a bay" className="mt-3 flex flex-wrap items-end gap-3">
          <TextField name="name" label="New bay" required />
          <SubmitButton tone="second">Add the bay</SubmitButton>
        </Form>
      </Section>
      {staff.map((person) => (
        <Section key={person.id} title={`Hours of ${person.name}`}>
          <Form
            action={saveWorkingHours}
            shop={slug}
            hidden={{ staffId: String(person.id), version: String(person.version) }}
            label={`Hours of ${person.name}`}
            className="max-w-[820px]"
          >
            <div className="grid gap-3 sm:grid-cols-2 md:grid-cols-3">
              {DAYS.map((name, n) => (
                <TextField
                  key={name}
                  name={`hours.${n + 1}`}
                  label={name}
                  initial={written(person.hours, n + 1)}
                  mono
                />
              ))}
            </div>
            {grades.length > 1 && (
              <fieldset className="mt-2">
                <legend className="font-semibold text-[15px]">Works at</legend>
                <p className="text-[14px] text-soft">
                  First times offer them for these. None ticked is all of them.
                </p>
                <div className="flex flex-wrap gap-x-6">
                  {grades.map((grade) => (
                    <CheckField
                      key={grade.code}
                      name="grades[]"
                      value={grade.code}
                      label={grade.name}
                      initial={gradesOf(person.grades).includes(grade.code)}
                    />
                  ))}
                </div>
              </fieldset>
            )}
            <p className="mt-2 mb-3 text-soft">Spans like 08:00-12:00, 12:30-16:30. Blank is a day off.</p>
            <SubmitButton tone="second">Save hours</SubmitButton>
          </Form>
        </Section>
      ))}
      <Section title="Days off">
        {off.length === 0 && <p className="mb-3 text-soft">None to come.</p>}
        <ul className="max-w-[820px]">
          {off.map((days) => (
            <li
              key={`${days.kind}${days.id}`}
              className="flex flex-wrap items-center justify-between gap-3 border-hair border-b py-2"
            >
              <span>
                <strong>{days.who}</strong> <DateText date={days.fromDay} locale={locale} /> to{" "}
                <DateText date={days.toDay} locale={locale} /> {days.why}
              </span>
              <Form
                action={removeOff}
                shop={slug}
                hidden={{ id: String(days.id), kind: days.kind }}
                label={`Remove days off of ${days.who}`}
              >
                <SubmitButton tone="quiet">Remove</SubmitButton>
              </Form>
            </li>
          ))}
        </ul>
        <Form
          action={addOff}
          shop={slug}
          label="Add days off"
          className="mt-3 grid max-w-[820px] items-end gap-3 sm:grid-cols-2 md:grid-cols-3"
        >
          <SelectField
            name="staffId"
            label="Who"
            options={[
              { value: "", label: "The whole shop" },
              ...staff.map((s) => ({ value: String(s.id), label: s.name })),
            ]}
          />
          <DateField name="fromDay" label="First day" required />
          <DateField name="toDay" label="Last day" required />
          <TextField name="why" label="Why" />
          <SubmitButton tone="second">Add days off</SubmitButton>
        </Form>
      </Section>
      <Holidays shop={shop} today={today} closures={closures} region={region} />
    </>
  );
}
