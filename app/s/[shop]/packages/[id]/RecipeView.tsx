import { minutesText } from "@/app/_ui/format";
import { moneyText } from "@/app/_ui/moneyText";
import { Section } from "@/app/_ui/Section";
import type { RevisionView } from "@/lib/data/packages/get";
import type { Option, Recipe } from "@/lib/domain/packages/recipe";
import { DESCRIBED_NAMES, partWords } from "@/lib/domain/tuning/describedParts";
import { changeText, needleText, partText, ruleText } from "./recipeWords";
import { WorkTables } from "./WorkTables";

const HOW = { "exactly one": "exactly one", "at most one": "at most one", any: "any" } as const;

/** A revision in plain words: what can be chosen, what goes with what, the work and what must be open for it. */
export function RecipeView({
  shown,
  currency,
  locale,
}: {
  shown: RevisionView;
  currency: string;
  locale: string;
}) {
  const { recipe } = shown;
  return (
    <>
      {shown.presetMinutes !== null && (
        <p className="mb-5">
          With the options ticked from the start the work takes{" "}
          <strong className="font-mono">{minutesText(shown.presetMinutes, "min", "h")}</strong>.
          {shown.presetGap
            ? ` No shorter order was found; at most ${shown.presetGap} min less is possible.`
            : ""}
        </p>
      )}
      <div className="grid gap-x-8 rail:grid-cols-2">
        <Section title="Options">
          {recipe.groups.map((group) => (
            <div key={group.key} className="mb-4">
              <h3 className="text-[14px] text-soft">
                {group.name}: {HOW[group.choose]}
              </h3>
              <ul>
                {recipe.options
                  .filter((o) => o.group === group.key)
                  .map((o) => (
                    <OptionRow
                      key={o.key}
                      option={o}
                      recipe={recipe}
                      money={(minor) => moneyText(minor, currency, locale, true)}
                    />
                  ))}
              </ul>
            </div>
          ))}
        </Section>
        <Section title="Rules">
          {recipe.rules.length === 0 && <p className="text-soft">None: any options go together.</p>}
          <ul>
            {recipe.rules.map((rule) => (
              <li key={JSON.stringify(rule)} className="border-hair border-b py-2">
                {ruleText(rule, recipe)}
                <span className="block text-[14px] text-soft">{rule.why}</span>
              </li>
            ))}
          </ul>
        </Section>
      </div>
      <WorkTables recipe={recipe} />
    </>
  );
}

function OptionRow({
  option,
  recipe,
  money,
}: {
  option: Option;
  recipe: Recipe;
  money: (minor: number) => string;
}) {
  const names = option.operations.map((key) => recipe.operations.find((o) => o.key === key)?.name ?? key);
  const marks = [
    option.preset ? "ticked from the start" : "",
    option.roadUse ? "road rules may apply" : "",
    option.fixedPriceMinor === undefined ? "" : `fixed price ${money(option.fixedPriceMinor)}`,
  ];
  const lines = [
    names.length > 0 ? `Work: ${names.join(", ")}` : "",
    option.parts.length > 0 ? `Parts: ${option.parts.map(partText).join(", ")}` : "",
    ...(option.kits ?? []).map((kit) => `${kit.name} (${kit.code}) together ${money(kit.priceMinor)}`),
    option.changes.length > 0 ? `Settings: ${option.changes.map(changeText).join(", ")}` : "",
    ...(option.leaves ?? []).map((part) => `${DESCRIBED_NAMES[part.kind]} left: ${partWords(part)}`),
    option.needle ? `Needle: ${needleText(option.needle)}` : "",
    option.cautions.length > 0 ? `Said before accepting: ${option.cautions.join(" ")}` : "",
    marks.filter(Boolean).join(", "),
  ].filter(Boolean);
  return (
    <li className="border-hair border-b py-2">
      <strong>{option.name}</strong>
      <span className="block text-[15px]">{option.plain}</span>
      {lines.map((line) => (
        <span key={line} className="block text-[14px] text-soft">
          {line}
        </span>
      ))}
    </li>
  );
}
