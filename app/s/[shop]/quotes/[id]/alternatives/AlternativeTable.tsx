import { Form } from "@/app/_ui/Form";
import { dateText, figureText, minutesText } from "@/app/_ui/format";
import { moneyText } from "@/app/_ui/moneyText";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { Alternative, Alternatives } from "@/lib/data/quotes/alternatives";
import { settingDef } from "@/lib/domain/tuning/settings";
import { dropAlternativeOf, takeAlternativeUp } from "../../actions";

interface Props {
  slug: string;
  id: number;
  alternatives: Alternatives;
  mayWrite: boolean;
}

/** The ways in columns, with one row for each thing in which they differ or agree. */
export function AlternativeTable({ slug, id, alternatives, mayWrite }: Props) {
  const { currency, locale } = alternatives;
  const money = (minor: number) => moneyText(minor, currency, locale);
  const least = Math.min(...alternatives.alternatives.map((w) => w.grossMinor));
  const options = [...new Set(alternatives.alternatives.flatMap((w) => w.options))];
  const settings = [
    ...new Set(alternatives.alternatives.flatMap((w) => w.settings.map((s) => `${s.carburettor}\t${s.key}`))),
  ];
  const notes = [...new Set(alternatives.alternatives.flatMap((w) => w.cautions))];
  const warnings = [...new Set(alternatives.alternatives.flatMap((w) => w.warnings))];
  const several = new Set(settings.map((s) => s.split("\t")[0])).size > 1;
  const cell = "border-hair border-b px-3 py-2 text-start align-top first:pl-0";
  // What differs stands out in weight; what is the same everywhere stays quiet.
  const row = (name: string, of: (alternative: Alternative) => string, mono = false) => (
    <tr
      key={name}
      className={new Set(alternatives.alternatives.map(of)).size > 1 ? "font-semibold" : "text-soft"}
    >
      <th
        scope="row"
        className={`${cell} font-[inherit] max-sm:sticky max-sm:left-0 max-sm:w-36 max-sm:min-w-36 max-sm:bg-paper`}
      >
        {name}
      </th>
      {alternatives.alternatives.map((alternative) => (
        <td key={alternative.letter} className={mono ? `${cell} font-mono` : cell}>
          {of(alternative)}
        </td>
      ))}
    </tr>
  );
  const value = (alternative: Alternative, key: string) => {
    const [carburettor, setting] = key.split("\t");
    const found = alternative.settings.find((s) => s.carburettor === carburettor && s.key === setting);
    const def = settingDef(setting ?? "");
    return found && def ? `${figureText(found.value, locale, def.decimals)} ${def.unit}`.trim() : "as it is";
  };
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a table wider than a phone must be reachable by keyboard
    <section className="mb-6 overflow-x-auto" aria-label="Alternatives side by side" tabIndex={0}>
      <table className="w-full min-w-[34rem] border-collapse text-[15px]">
        <caption className="sr-only">Alternatives of the quote, side by side</caption>
        <thead>
          <tr>
            <th scope="col" className={cell}>
              <span className="sr-only">What</span>
            </th>
            {alternatives.alternatives.map((alternative) => (
              <th key={alternative.letter} scope="col" className={`${cell} border-b-ink`}>
                <span className="font-bold text-xl">{alternative.letter}</span> {alternative.name}
                {alternative.now && (
                  <span className="block text-[14px] text-pine">as the quote stands now</span>
                )}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {row("Total", (w) => money(w.grossMinor), true)}
          {row(
            "More than the least",
            (w) => (w.grossMinor === least ? "–" : `+${money(w.grossMinor - least)}`),
            true,
          )}
          {row("Deposit", (w) => money(w.depositMinor), true)}
          {row("Work", (w) => minutesText(w.minutes, "min", "h"), true)}
          {options.map((name) => row(name, (w) => (w.options.includes(name) ? "yes" : "–")))}
          {settings.map((key) => {
            const [carburettor, setting] = key.split("\t");
            const name = settingDef(setting ?? "")?.name ?? setting;
            return row(several ? `${name}, ${carburettor}` : `${name}`, (w) => value(w, key), true);
          })}
          {row("All parts here", (w) => hereWords(w.ready, locale))}
          {row("Road use", (w) =>
            w.roadUse.length > 0
              ? `emissions and noise rules may apply: ${w.roadUse.join(", ")}`
              : "nothing to acknowledge",
          )}
          {notes.map((note) => row(note, (w) => (w.cautions.includes(note) ? "applies" : "–")))}
          {warnings.map((text) => row(text, (w) => (w.warnings.includes(text) ? "look at it" : "–")))}
          {alternatives.alternatives.some((w) => w.stops.length > 0) &&
            row("Not to be sent yet", (w) => w.stops.join(" ") || "–")}
          {mayWrite && (
            <tr>
              <td className={cell} />
              {alternatives.alternatives.map((alternative) => {
                const hidden = {
                  id: String(id),
                  version: String(alternatives.version),
                  letter: alternative.letter,
                };
                return (
                  <td key={alternative.letter} className={cell}>
                    <div className="flex flex-wrap gap-3">
                      <Form
                        action={takeAlternativeUp}
                        shop={slug}
                        hidden={hidden}
                        label={`Take ${alternative.letter}`}
                      >
                        <SubmitButton tone="second">{`Take ${alternative.letter}`}</SubmitButton>
                      </Form>
                      <Form
                        action={dropAlternativeOf}
                        shop={slug}
                        hidden={hidden}
                        label={`Drop ${alternative.letter}`}
                      >
                        <SubmitButton tone="quiet">{`Drop ${alternative.letter}`}</SubmitButton>
                      </Form>
                    </div>
                  </td>
                );
              })}
            </tr>
          )}
        </tbody>
      </table>
    </section>
  );
}

function hereWords({ on, unknown, short }: Alternative["ready"], locale: string): string {
  if (short === 0) return "in stock";
  return on === null ? `no day known: ${unknown.join(", ")}` : `on ${dateText(on, locale)}`;
}
