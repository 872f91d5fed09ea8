import { buttonLook } from "@/app/_ui/buttonLook";
import { cx } from "@/app/_ui/cx";
import { minutesText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import { Money } from "@/app/_ui/Money";
import { moneyText } from "@/app/_ui/moneyText";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import type { ShownText } from "@/lib/data/quotes/shownText";
import { wordsIn } from "@/lib/words/words";
import { AlternativeCurve } from "./AlternativeCurve";
import { alternativeName, type Differences, differencesOf } from "./alternativeDifferences";
import { settingSentence } from "./settingWords";

interface Props {
  quote: ShownText;
  /** Address of the page that shows the quote; null where nothing is chosen on it. */
  path: string | null;
  /** Lets them stand wider than the text around them. */
  className?: string | undefined;
}

/** The ways to choose from, side by side: what differs in plain words. Each is a link, so that the server works out the rest. */
export function Alternatives({ quote, path, className }: Props) {
  const { printed, extras } = quote;
  const say = wordsIn(printed.locale);
  const found = differencesOf(printed.alternatives ?? []);
  if (!found) return null;
  const taken = extras.filter((e) => e.taken).map((e) => ["extra", e.key]);
  const href = (letter: string) =>
    path === null ? undefined : `${path}?${new URLSearchParams([["alternative", letter], ...taken])}`;
  return (
    <Section title={say("quotePage.chooseOne")} className={className}>
      {found.common.length > 0 && (
        <p className="mb-3">{say("quotePage.inEach", { names: found.common.join("; ") })}</p>
      )}
      <ul className={cx("grid gap-4", found.alternatives.length > 2 ? "lg:grid-cols-3" : "sm:grid-cols-2")}>
        {found.alternatives.map((one) => (
          <Alternative
            key={one.alternative.letter}
            one={one}
            all={found}
            printed={printed}
            href={
              one.alternative.letter === printed.alternative?.letter ? null : href(one.alternative.letter)
            }
          />
        ))}
      </ul>
    </Section>
  );
}

interface AlternativeProps {
  one: Differences["alternatives"][number];
  all: Differences;
  printed: ShownText["printed"];
  /** Null for the one chosen, undefined where nothing is chosen on the page. */
  href: string | null | undefined;
}

function Alternative({ one, all, printed, href }: AlternativeProps) {
  const { alternative, options, settings, cautions, moreMinor } = one;
  const { currency, locale } = printed;
  const say = wordsIn(locale);
  const chooseIt =
    alternative.letter === ""
      ? say("quotePage.chooseAsQuoted")
      : say("quotePage.choose", { name: alternativeName(alternative, locale) });
  const several = printed.carburettors.length > 1;
  const at = (carburettor: number) =>
    several ? `${printed.carburettors[carburettor - 1] ?? carburettor}: ` : "";
  return (
    <li
      aria-current={href === null ? "true" : undefined}
      className={cx(
        "flex min-w-0 flex-col rounded-[3px] bg-sheet p-4",
        href === null ? "border-2 border-ink" : "m-px border border-rule",
      )}
    >
      <h3 className="font-bold text-[19px]">{alternativeName(alternative, locale)}</h3>
      <p className="mt-1 text-[22px]">
        <Money minor={alternative.grossMinor} currency={currency} locale={locale} code />
      </p>
      <p className="text-[14px] text-soft">
        {moreMinor === 0
          ? say("quotePage.least")
          : say("quotePage.moreThan", {
              amount: moneyText(moreMinor, currency, locale),
              name: all.cheapest.letter || alternativeName(all.cheapest, locale),
            })}
        {", "}
        {say("quotePage.inWorkshop", {
          time: minutesText(alternative.minutes, say("kit.minutes"), say("kit.hours")),
        })}
      </p>
      <ul className="mt-3 grow text-[15px]">
        {options.map((name) => (
          <li key={name} className="py-0.5 font-semibold">
            {name}
          </li>
        ))}
        {settings.map((s) => (
          <li key={`${s.carburettor} ${s.setting}`} className="py-0.5 text-[14px]">
            {at(s.carburettor)}
            {settingSentence(s, locale)}
          </li>
        ))}
        {cautions.map((text) => (
          <li key={text} className="py-0.5">
            {text}
          </li>
        ))}
        <li className="py-0.5 text-soft">
          {say(alternative.roadUse ? "quotePage.roadRules" : "quotePage.noRoadRules")}
        </li>
      </ul>
      <AlternativeCurve curve={alternative.curve} between={all.lambda} locale={locale} />
      <p className="mt-3 flex min-h-12 items-center">
        {href === null ? (
          <State shape="filled" tone="pine">
            {say("quotePage.chosen")}
          </State>
        ) : href === undefined ? (
          <span className="text-soft">{chooseIt}</span>
        ) : (
          <Link
            href={href}
            replace
            scroll={false}
            className={buttonLook("second", "normal", "min-h-12 w-full")}
          >
            {chooseIt}
          </Link>
        )}
      </p>
    </li>
  );
}
