import { Facts } from "@/app/_ui/Facts";
import { moneyText } from "@/app/_ui/moneyText";

/** What should lie in the drawer, put together line by line. */
export function DrawerFacts({
  floatMinor,
  cashMinor,
  moves,
  expectedMinor,
  currency,
  locale,
}: {
  /** Null where it is not known yet. */
  floatMinor: number | null;
  cashMinor: number;
  moves: readonly { readonly amountMinor: number; readonly reason: string; readonly by: string }[];
  expectedMinor: number;
  currency: string;
  locale: string;
}) {
  const text = (minor: number) => moneyText(minor, currency, locale);
  return (
    <Facts
      rows={[
        ...(floatMinor === null
          ? []
          : [{ key: "float", name: "Float it began with", value: text(floatMinor), mono: true }]),
        { key: "cash", name: "Cash taken", value: text(cashMinor), mono: true },
        ...moves.map(({ amountMinor, reason, by }, at) => ({
          key: `move${at}`,
          name: `${amountMinor > 0 ? "Put in" : "Taken out"}: ${reason}, ${by}`,
          value: text(amountMinor),
          mono: true,
        })),
        {
          key: "expected",
          name: floatMinor === null ? `With the float, ${currency}` : `Should be there, ${currency}`,
          value: floatMinor === null ? `${text(expectedMinor)} + …` : text(expectedMinor),
          mono: true,
          strong: true,
        },
      ]}
    />
  );
}
