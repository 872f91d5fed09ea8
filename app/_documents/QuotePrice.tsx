import { Facts } from "@/app/_ui/Facts";
import { figureText, minutesText } from "@/app/_ui/format";
import { Money } from "@/app/_ui/Money";
import { Section } from "@/app/_ui/Section";
import type { ShownText } from "@/lib/data/quotes/shownText";
import { nameIn } from "@/lib/domain/pricing/said";
import { byWork } from "@/lib/domain/quoting/byWork";
import { paperWords } from "@/lib/words/papers";
import { wordsIn } from "@/lib/words/words";

type Priced = Pick<
  ShownText["printed"],
  | "currency"
  | "locale"
  | "works"
  | "taxes"
  | "pricesIncludeTax"
  | "grossMinor"
  | "depositMinor"
  | "savedMinutes"
  | "savedAgainst"
>;

/** The price as printed. */
export function QuotePrice({ quote }: { quote: Pick<ShownText, "lines"> & { printed: Priced } }) {
  const { printed, lines } = quote;
  const say = wordsIn(printed.locale);
  const time = (minutes: number) => minutesText(minutes, say("kit.minutes"), say("kit.hours"));
  const money = (minor: number) => (
    <Money minor={minor} currency={printed.currency} locale={printed.locale} credit />
  );
  const { said } = paperWords(printed.locale);
  const name = (line: ShownText["lines"][number]) => {
    const own = nameIn(line, said);
    if (line.kind === "labour") return `${own}, ${time(Math.round((line.quantityMilli * 60) / 1000))}`;
    if (line.kind === "part" && line.quantityMilli !== 1000)
      return `${own}, ${figureText(line.quantityMilli / 1000, printed.locale)}${line.unit === "each" ? "" : ` ${line.unit}`}`;
    return own;
  };
  const rows = (of: ShownText["lines"]) =>
    of.map((line) => ({ key: line.key, name: name(line), value: money(line.shownMinor) }));
  const groups = printed.works ? byWork(printed.works, lines).filter((group) => group.lines.length > 0) : [];
  return (
    <Section title={say("quotePage.cost")}>
      {groups.map(({ work, lines: own }) => (
        <div key={work?.key ?? "rest"} className="mb-3">
          <h3 className="font-semibold text-[15px]">{work?.name ?? say("quotePage.forAll")}</h3>
          <Facts rows={rows(own)} />
        </div>
      ))}
      <Facts
        rows={[
          ...(groups.length > 0 ? [] : rows(lines)),
          ...printed.taxes.map((tax) => ({
            key: `tax ${tax.name}`,
            name: printed.pricesIncludeTax ? say("quotePage.ofWhich", { tax: tax.name }) : tax.name,
            value: money(tax.taxMinor),
          })),
          {
            key: "total",
            name: say("quotePage.total", { currency: printed.currency }),
            value: money(printed.grossMinor),
            strong: true,
          },
          ...(printed.depositMinor > 0
            ? [{ key: "deposit", name: say("quotePage.deposit"), value: money(printed.depositMinor) }]
            : []),
        ]}
      />
      {printed.savedMinutes > 0 && (
        <p className="mt-2 text-[15px] text-pine">
          {say(printed.savedAgainst === "visits" ? "quotePage.savedVisits" : "quotePage.savedAtOnce", {
            time: time(printed.savedMinutes),
          })}
        </p>
      )}
    </Section>
  );
}
