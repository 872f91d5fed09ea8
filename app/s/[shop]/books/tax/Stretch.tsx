import { buttonLook } from "@/app/_ui/buttonLook";
import { DateField } from "@/app/_ui/DateField";
import { LinkButton } from "@/app/_ui/LinkButton";
import { SelectField } from "@/app/_ui/SelectField";
import { type PeriodMonths, periodBeside } from "@/lib/domain/taxReport/periods";
import { STRETCH_WORDS, STRETCHES } from "@/lib/schemas/tax";
import { taxHref } from "./address";

interface Props {
  slug: string;
  query: { readonly by: string; readonly from: string; readonly to: string; readonly basis: string };
  months: PeriodMonths | null;
}

export const BASIS_OPTIONS = [
  { value: "issued", label: "Issued: by the documents" },
  { value: "paid", label: "Paid: by the money" },
];

/** Which days and on which basis, and the stretches before and after. */
export function Stretch({ slug, query, months }: Props) {
  const beside = (by: 1 | -1) => taxHref(slug, { ...query, ...periodBeside(query, months, by) });
  return (
    <>
      <form
        method="get"
        aria-label="Period and basis"
        className="mb-3 grid items-end gap-x-3 gap-y-2 sm:grid-cols-[repeat(5,auto)] sm:justify-start print:hidden"
      >
        <SelectField
          name="by"
          label="How long"
          initial={query.by}
          options={STRETCHES.map((value) => ({ value, label: STRETCH_WORDS[value] }))}
        />
        <DateField name="from" label="With this day" initial={query.from} />
        <DateField name="to" label="To, for own days" initial={query.to} />
        <SelectField name="basis" label="Counts" initial={query.basis} options={BASIS_OPTIONS} />
        <button type="submit" className={buttonLook("second", "normal", "mb-4")}>
          Show
        </button>
      </form>
      <nav aria-label="Periods beside" className="mb-5 flex flex-wrap gap-2.5 print:hidden">
        <LinkButton href={beside(-1)}>Before</LinkButton>
        <LinkButton href={beside(1)}>After</LinkButton>
      </nav>
    </>
  );
}
