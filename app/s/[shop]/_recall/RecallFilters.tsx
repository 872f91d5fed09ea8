import { Link } from "@/app/_ui/Link";
import type { Recall } from "@/lib/data/figures/recall";
import { CHANGED, CHANGES } from "@/lib/domain/sheets/changed";

interface Props {
  readonly recall: Pick<Recall, "filter" | "packages">;
  /** The page's address with what else stands in it. */
  readonly here: string;
  readonly query?: Readonly<Record<string, string>> | undefined;
}

/** Narrows the recalled bikes to what was changed on them. */
export function RecallFilters({ recall, here, query }: Props) {
  const { filter, packages } = recall;
  const chosen = !filter ? "" : "changed" in filter ? filter.changed : `package-${filter.packageId}`;
  const choices = [
    { value: "", name: "any work" },
    ...CHANGES.map((value) => ({ value: value as string, name: CHANGED[value].name })),
    ...packages.map(({ id, name }) => ({ value: `package-${id}`, name })),
  ];
  const to = (value: string) => {
    const asked = new URLSearchParams({ ...query, ...(value ? { recall: value } : {}) }).toString();
    return `${here}${asked ? `?${asked}` : ""}#recall`;
  };
  return (
    <nav aria-label="What was changed on them" className="choices mb-2">
      {choices.map(({ value, name }) => (
        <Link
          key={value}
          href={to(value)}
          className={value === chosen ? "in-line" : "in-line text-brass"}
          aria-current={value === chosen ? "true" : undefined}
        >
          {name}
        </Link>
      ))}
    </nav>
  );
}
