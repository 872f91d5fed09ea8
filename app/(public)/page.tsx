import { redirect } from "next/navigation";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Section } from "@/app/_ui/Section";
import { shopsOf } from "@/lib/data/people/shops";
import { currentSession } from "@/lib/gate/session";

const STEPS = [
  ["Understand the bike", "As-found settings per carburettor, each value measured, read off or assumed."],
  [
    "Agree the work",
    "A package with options that go together, priced from the real work plan, accepted on a phone.",
  ],
  ["Have the parts", "Jets by half sizes in a drawer view; what is reserved for whom, and what is short."],
  ["Book it in", "A bay, a person, the hours; the first times that work."],
  [
    "Do it in the right order",
    "Everything opened once, hold points with limits, the caution before the step.",
  ],
  [
    "Settle the settings",
    "A starting point computed for this bike, this altitude and this season, then corrected by the ride.",
  ],
  ["Get paid", "An invoice of what was agreed and fitted, with the right tax, to the cent."],
  ["Remember", "Each bike's settings and outcomes make the next job better."],
] as const;

export default async function Landing() {
  const session = await currentSession();
  if (session) {
    const [first] = await shopsOf(session.personId);
    redirect(first ? `/s/${first.slug}` : "/account");
  }
  return (
    <>
      <div className="max-w-[640px] py-6">
        <h1 className="mb-4 font-bold text-[34px] leading-[1.15]">
          The whole job of a carburettor tuner, from the first call to the next service
        </h1>
        <p className="mb-6 text-soft">
          Quotes that know the work plan and the drawer, settings computed for the bike in front of you, a job
          card for gloved hands, and an invoice that adds up.
        </p>
        <div className="flex flex-wrap gap-3">
          <LinkButton href="/signin" tone="main">
            Sign in
          </LinkButton>
          <LinkButton href="/signup" tone="second">
            Open a shop
          </LinkButton>
        </div>
      </div>
      <Section title="What it does with you">
        <ol className="grid gap-x-10 sm:grid-cols-2">
          {STEPS.map(([name, text], n) => (
            <li key={name} className="flex gap-4 border-hair border-b py-3">
              <span className="font-mono text-brass">{n + 1}</span>
              <span>
                <strong>{name}.</strong> <span className="text-soft">{text}</span>
              </span>
            </li>
          ))}
        </ol>
      </Section>
    </>
  );
}
