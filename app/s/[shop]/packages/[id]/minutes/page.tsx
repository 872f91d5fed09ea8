import { notFound } from "next/navigation";
import { Empty } from "@/app/_ui/Empty";
import { Link } from "@/app/_ui/Link";
import { Minutes } from "@/app/_ui/Minutes";
import { PageHead } from "@/app/_ui/PageHead";
import { usualMinutes } from "@/lib/data/figures/packageMinutes";
import { getPackage } from "@/lib/data/packages/get";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";

/** What a package's work usually takes in this shop, against what the package plans. */
export default async function PackageMinutes({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("package.read", slug);
  const found = await getPackage(shop, pathId(id));
  if (!found) notFound();
  const rows = found.shown ? await usualMinutes(shop, found.id, found.shown.recipe) : [];
  const known = rows.filter((row) => row.usual !== null);
  return (
    <>
      <PageHead
        of={shop.name}
        title="What it takes here"
        sub={
          <Link href={`/s/${slug}/packages/${found.id}`} className="text-brass underline underline-offset-4">
            {found.name}
          </Link>
        }
      />
      <p className="mb-4 max-w-prose text-soft">
        The time taken on finished jobs of this shop, the newest hundred; a step on which nobody took time
        counts in none. Overtime is not computed.
      </p>
      {known.length === 0 ? (
        <Empty
          title="No time was taken on this package yet."
          text="Start the time on the job's card: each finished job then counts here."
        />
      ) : (
        <table className="ledger max-w-[860px]">
          <caption className="sr-only">
            Planned minutes of each operation and access beside what they usually take
          </caption>
          <thead>
            <tr>
              <th scope="col">Work</th>
              {["Planned", "Usually", "Half of the jobs", "Jobs", "Beyond the plan"].map((name) => (
                <th key={name} scope="col" data-align="end">
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ kind, key, name, planned, usual }) => {
              const beyond = usual ? Math.round(usual.median) - planned : 0;
              return (
                <tr key={`${kind} ${key}`}>
                  <td data-first="">{name}</td>
                  <td data-name="Planned" data-align="end">
                    <Minutes minutes={planned} />
                  </td>
                  <td data-name="Usually" data-align="end" data-empty={usual ? undefined : ""}>
                    {usual && <Minutes minutes={Math.round(usual.median)} />}
                  </td>
                  <td
                    data-name="Half of the jobs"
                    data-align="end"
                    data-empty={usual?.middleHalf ? undefined : ""}
                  >
                    {usual?.middleHalf && (
                      <span className="font-mono">
                        {Math.round(usual.middleHalf.from)} to {Math.round(usual.middleHalf.to)} min
                      </span>
                    )}
                  </td>
                  <td data-name="Jobs" data-align="end" className="font-mono">
                    {usual?.jobs ?? 0}
                  </td>
                  <td data-name="Beyond the plan" data-align="end" data-empty={usual ? undefined : ""}>
                    {usual && (
                      <>
                        {beyond < 0 && "− "}
                        <Minutes minutes={Math.abs(beyond)} />
                      </>
                    )}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
    </>
  );
}
