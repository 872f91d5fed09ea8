import { DateText } from "@/app/_ui/DateText";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Minutes } from "@/app/_ui/Minutes";
import { PageHead } from "@/app/_ui/PageHead";
import { hoursOfWeek } from "@/lib/data/figures/hours";
import { mondayOf } from "@/lib/domain/labour/hours";
import { dayAfter, dayOf } from "@/lib/domain/schedule/localTime";
import { open } from "@/lib/gate/open";
import { HoursQuery } from "@/lib/schemas/hours";
import { weekdayNames } from "@/lib/schemas/wishes";

/** Hours of a week as recorded: one's own, and everybody's for whoever does the wages. */
export default async function Hours({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("today.read", slug);
  const { locale, zone } = shop.settings;
  const asked = HoursQuery.parse(await searchParams).day;
  const monday = mondayOf(asked ?? dayOf(shop.now.getTime(), zone));
  const all = shop.can("export.run") || shop.can("time.correct");
  const rows = await hoursOfWeek(shop, monday, all ? undefined : (shop.by.staffId ?? 0));
  const here = `/s/${slug}/hours`;
  const days = weekdayNames(locale).map(({ name }, at) => ({ name, day: dayAfter(monday, at) }));
  return (
    <>
      <PageHead
        of={shop.name}
        title="Hours"
        sub={
          <>
            Week from <DateText date={monday} locale={locale} /> to{" "}
            <DateText date={dayAfter(monday, 6)} locale={locale} />
          </>
        }
        actions={
          <>
            <LinkButton href={`${here}?day=${dayAfter(monday, -7)}`}>The week before</LinkButton>
            <LinkButton href={`${here}?day=${dayAfter(monday, 7)}`}>The week after</LinkButton>
            {shop.can("export.run") && (
              <LinkButton href={`/api/s/${slug}/hours/csv?from=${monday}&to=${dayAfter(monday, 6)}`} download>
                As a file for wages
              </LinkButton>
            )}
          </>
        }
      />
      <p className="mb-4 max-w-prose text-soft">
        Time taken on jobs, as recorded, on the shop's clock. Overtime is not computed: law and contract say
        what it is.
      </p>
      {rows.length === 0 ? (
        <Empty title="No time was taken in this week." text="Time is started and stopped on a job's card." />
      ) : (
        <table className="ledger">
          <caption className="sr-only">Hours by person and day</caption>
          <thead>
            <tr>
              <th scope="col">Person</th>
              {days.map(({ name, day }) => (
                <th key={day} scope="col" data-align="end">
                  {name}
                </th>
              ))}
              <th scope="col" data-align="end">
                Week
              </th>
              <th scope="col" data-align="end">
                Breaks
              </th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.staffId}>
                <td data-first="">
                  {row.name}
                  {row.running && <span className="text-soft">, time still runs</span>}
                </td>
                {days.map(({ name, day }, at) => (
                  <td key={day} data-name={name} data-align="end" data-empty={row.days[at] ? undefined : ""}>
                    {row.days[at] ? <Minutes minutes={row.days[at]} /> : null}
                  </td>
                ))}
                <td data-name="Week" data-align="end" className="font-bold">
                  <Minutes minutes={row.minutes} />
                </td>
                <td data-name="Breaks" data-align="end" data-empty={row.breakMinutes ? undefined : ""}>
                  {row.breakMinutes > 0 && <Minutes minutes={row.breakMinutes} />}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </>
  );
}
