import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { open } from "@/lib/gate/open";

const SUMS = [
  ["air", "Air now", "Density, dry part and density altitude of today's air, against a bench day"],
  [
    "trip",
    "Jet for a trip",
    "One main jet and mixture screw for other altitudes and temperatures, from the drawer",
  ],
  ["needles", "Needle against needle", "Two needles in one needle jet: open ring over lift, drawn to scale"],
  ["slide", "Spring and lift holes", "Rate and force of a cut spring, and how much sooner the slide rises"],
  ["fuel", "Fuel flow and filters", "What comes through the line beside what the engine burns at full load"],
  ["breathing", "Airbox and header flow", "Openings, snorkel, filter, where the bowl is vented; header weld"],
] as const;
const HANDS = [
  [
    "procedures",
    "Measuring",
    "Line drawings of how each value is read: instrument, how many readings, cautions, what becomes of it",
  ],
  [
    "observing",
    "Reading the plug and the engine",
    "What signs may mean at each throttle position and load, and what they cannot tell; photos in pairs",
  ],
] as const;
const LOGS = [
  [
    "dyno",
    "Dyno runs",
    "Before and after from a CSV file, corrected to a named standard, with the noise of repeats",
  ],
  ["lambda", "Lambda log", "Steady readings of a log against the target, and a bike's calibration from them"],
] as const;

export default async function Bench({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("bench.use", slug);
  return (
    <>
      <PageHead of={shop.name} title="Bench" sub="Tuning sums on their own, without a job" />
      <Section title="Sums">
        <Rooms slug={slug} rooms={SUMS} />
      </Section>
      <Section title="Readings">
        <Rooms slug={slug} rooms={LOGS} />
      </Section>
      <Section title="By hand and eye">
        <Rooms slug={slug} rooms={HANDS} />
      </Section>
    </>
  );
}

function Rooms({
  slug,
  rooms,
}: {
  slug: string;
  rooms: readonly (readonly [path: string, name: string, what: string])[];
}) {
  return (
    <ul className="max-w-[860px]">
      {rooms.map(([path, name, what]) => (
        <li key={path} className="border-hair border-b">
          <Link
            href={`/s/${slug}/bench/${path}`}
            className="grid min-h-12 gap-x-6 py-2.5 no-underline sm:grid-cols-[220px_1fr]"
          >
            <strong>{name}</strong>
            <span className="text-soft">{what}</span>
          </Link>
        </li>
      ))}
    </ul>
  );
}
