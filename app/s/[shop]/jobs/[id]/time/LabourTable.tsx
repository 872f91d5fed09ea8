import { Fragment } from "react";
import { Link } from "@/app/_ui/Link";
import { Minutes } from "@/app/_ui/Minutes";
import { Money } from "@/app/_ui/Money";
import { Section } from "@/app/_ui/Section";
import type { LabourRow } from "@/lib/data/figures/jobLabour";
import type { Reckoned } from "@/lib/domain/labour/reckoned";

interface Props {
  title: string;
  /** What a row is: step, person. */
  of: string;
  rows: readonly LabourRow[];
  all: Reckoned;
  base: string;
  /** Null for a role that sees no money. */
  money: { readonly currency: string; readonly locale: string } | null;
}

const COLUMNS = [
  ["Planned", "plannedMinutes", "plannedMinor"],
  ["Spent", "spentMinutes", "spentMinor"],
  ["Billed", "billedMinutes", "billedMinor"],
] as const;

/** Planned, spent and billed of each row, with what was spent beyond the plan; all rows come to the job's own. */
export function LabourTable({ title, of, rows, all, base, money }: Props) {
  return (
    <Section title={title}>
      <table className="ledger">
        <caption className="sr-only">{title}: minutes planned, spent and billed</caption>
        <thead>
          <tr>
            <th scope="col">{of}</th>
            {COLUMNS.map(([name]) => (
              <th key={name} scope="col" data-align="end">
                {name}
              </th>
            ))}
            <th scope="col" data-align="end">
              Beyond the plan
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.key}>
              <td data-first="">
                {row.packageId ? (
                  <Link
                    href={`${base}/packages/${row.packageId}/minutes`}
                    className="text-brass underline underline-offset-4"
                  >
                    {row.name}
                  </Link>
                ) : (
                  row.name
                )}
              </td>
              <Cells of={row} money={money} />
            </tr>
          ))}
          <tr className="font-bold">
            <td data-first="">All</td>
            <Cells of={all} money={money} />
          </tr>
        </tbody>
      </table>
    </Section>
  );
}

function Cells({ of, money }: { of: Reckoned; money: Props["money"] }) {
  const beyond = {
    minutes: of.spentMinutes - of.plannedMinutes,
    minor: of.spentMinor - of.plannedMinor,
  };
  return (
    <Fragment>
      {COLUMNS.map(([name, minutes, minor]) => (
        <td key={name} data-name={name} data-align="end" data-empty={of[minutes] === null ? "" : undefined}>
          {of[minutes] !== null && <Minutes minutes={of[minutes]} />}
          {money && of[minor] !== null && (
            <span className="block text-[14px] text-soft">
              <Money minor={of[minor]} {...money} />
            </span>
          )}
        </td>
      ))}
      <td data-name="Beyond the plan" data-align="end">
        {beyond.minutes < 0 && "− "}
        <Minutes minutes={Math.abs(beyond.minutes)} />
        {money && (
          <span className="block text-[14px] text-soft">
            <Money minor={beyond.minor} {...money} />
          </span>
        )}
      </td>
    </Fragment>
  );
}
