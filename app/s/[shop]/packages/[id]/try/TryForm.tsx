import { Button } from "@/app/_ui/Button";
import { CheckField } from "@/app/_ui/CheckField";
import { PickField } from "@/app/_ui/PickField";
import { Section } from "@/app/_ui/Section";
import type { Trial } from "@/lib/data/quotes/tryPackage";

/** The model card and the ticks, in the page's own address: it can be kept, sent on and gone back from. */
export function TryForm({ slug, trial }: { slug: string; trial: Trial }) {
  const { view, card, cards } = trial;
  if (cards.length === 0)
    return <p className="text-soft">No model card yet: add one under Bikes, then try the package on it.</p>;
  return (
    <form method="get" className="min-w-0" aria-label="Try the package">
      <input type="hidden" name="revision" value={trial.package.shown?.number} readOnly />
      <PickField
        key={card?.value}
        shop={slug}
        from="cards"
        name="card"
        label="Model card"
        newest={cards}
        chosen={card ?? cards[0]}
        required
      />
      {view && (
        <Section title="Options">
          <input type="hidden" name="asked" value="yes" readOnly />
          {view.groups.map((group) => (
            <fieldset key={group.key} className="mb-4 min-w-0">
              <legend className="text-[14px] text-soft">{`${group.name}, ${group.choose}`}</legend>
              {group.options.map((o) => (
                <CheckField
                  key={`${o.key} ${o.ticked}`}
                  name="tick"
                  value={o.key}
                  label={o.name}
                  initial={o.ticked}
                  disabled={o.forbidden}
                  detail={o.because || o.notes.map((n) => n.text).join(" · ")}
                  figure={o.size || (o.minutes > 0 ? `${o.minutes} min` : "")}
                  ruled
                />
              ))}
            </fieldset>
          ))}
        </Section>
      )}
      <Button type="submit" tone="main">
        {view ? "Compute again" : "Try it"}
      </Button>
    </form>
  );
}
