import { Empty } from "@/app/_ui/Empty";
import { instantText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import type { LatestSheets, SheetView } from "@/lib/data/bikes/sheets";
import { VERIFY } from "@/lib/domain/reason";
import { CompareTable } from "../CompareTable";
import { KIND_NAMES } from "../settingText";

export interface SettingsProps {
  readonly home: string;
  readonly bike: {
    readonly latest: LatestSheets;
    readonly carburettors: readonly { readonly position: number; readonly label: string }[];
  };
  readonly locale: string;
  readonly zone: string;
  readonly mayRecord: boolean;
}

/** The newest sheet of each kind side by side, in the order they come about. */
export function Settings({ home, bike, locale, zone, mayRecord }: SettingsProps) {
  const { asFound, target, asLeft } = bike.latest;
  const known = [asFound, target, asLeft].filter((sheet): sheet is SheetView => sheet !== null);
  const record = mayRecord && (
    <LinkButton href={`${home}/sheets/new?kind=asFound`} tone="main">
      Record as found
    </LinkButton>
  );
  if (known.length === 0)
    return (
      <Section title="Settings">
        <Empty
          title="No settings are kept yet."
          text="Record what is fitted now: every later setting is compared with it."
          action={record}
        />
      </Section>
    );
  return (
    <Section
      title="Settings, newest of each kind"
      aside={
        <LinkButton href={`${home}/sheets`} tone="quiet">
          All sheets
        </LinkButton>
      }
    >
      <CompareTable
        caption="Settings as found, target and as left"
        sheets={known.map((sheet) => ({
          title: `${KIND_NAMES[sheet.kind]}, ${instantText(sheet.takenAt.toISOString(), locale, zone, "date")}`,
          values: sheet.values,
        }))}
        carburettors={bike.carburettors}
        locale={locale}
      />
      {target?.values.some((value) => value.how === "computed") && <Note>{VERIFY}</Note>}
      {known.length > 1 && (
        <p className="mt-2 text-[14px] text-soft">
          A diamond marks a value that differs from the one to its left.
        </p>
      )}
    </Section>
  );
}
