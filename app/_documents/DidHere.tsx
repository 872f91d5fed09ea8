import { Section } from "@/app/_ui/Section";
import { didHereText } from "@/lib/documents/didHere";
import type { DidHere as Did } from "@/lib/domain/procedures/effects";
import { wordsIn } from "@/lib/words/words";

/** What the packages of a quote did on bikes of the shop, where the shop tells its customers. */
export function DidHere({ did, locale }: { did: readonly Did[] | undefined; locale: string }) {
  const say = wordsIn(locale);
  return (did ?? []).map(({ name, effects }) => (
    <Section key={name} title={say("didHere.title", { name })}>
      <ul>
        {effects.map((one) => (
          <li key={`${one.kind} ${JSON.stringify(one.under)}`} className="border-hair border-b py-1.5">
            {didHereText(one, locale)}
          </li>
        ))}
      </ul>
      <p className="mt-1 text-[14px] text-soft">{say("didHere.note")}</p>
    </Section>
  ));
}
