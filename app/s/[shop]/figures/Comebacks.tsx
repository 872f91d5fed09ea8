import { Facts } from "@/app/_ui/Facts";
import { Link } from "@/app/_ui/Link";
import { Section } from "@/app/_ui/Section";
import { type ComebackLine, comebackFigures } from "@/lib/data/figures/comebacks";
import type { OpenShop } from "@/lib/gate/open";

/** Bikes that came back: of which packages, of whose work, and why. */
export async function Comebacks({ shop }: { shop: OpenShop }) {
  const { whole, packages, people, jobs } = await comebackFigures(shop);
  if (whole === 0) return null;
  const rows = (lines: readonly ComebackLine[]) =>
    lines.map(({ name, comebacks }) => ({ key: name, name, value: String(comebacks), mono: true }));
  return (
    <Section title={`Comebacks in twelve months: ${whole}`}>
      <div className="grid gap-x-8 md:grid-cols-2">
        <div>
          <h3 className="font-semibold text-[15px]">By package</h3>
          <Facts rows={rows(packages)} />
        </div>
        <div>
          <h3 className="font-semibold text-[15px]">By who did the work</h3>
          <Facts rows={rows(people)} />
        </div>
      </div>
      <ul className="mt-3">
        {jobs.map((job) => (
          <li key={job.id} className="border-hair border-b py-1.5">
            <Link
              className="inline-flex min-h-6 items-center text-brass underline underline-offset-4 pointer-coarse:min-h-12"
              href={`/s/${shop.slug}/jobs/${job.id}`}
            >
              Job {job.number}
            </Link>{" "}
            of job {job.of}: {job.why}, charged {job.chargedBp / 100} %
          </li>
        ))}
      </ul>
    </Section>
  );
}
