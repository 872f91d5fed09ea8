import { ChoiceField } from "@/app/_ui/ChoiceField";
import { DateText } from "@/app/_ui/DateText";
import { Dialog } from "@/app/_ui/Dialog";
import { distanceText } from "@/app/_ui/distanceText";
import { Empty } from "@/app/_ui/Empty";
import { Form } from "@/app/_ui/Form";
import { dateText, figureText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Opens } from "@/app/_ui/Opens";
import { PageHead } from "@/app/_ui/PageHead";
import { State } from "@/app/_ui/State";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { type FollowUpLine, listFollowUps } from "@/lib/data/followUps/list";
import { RATE_METHOD } from "@/lib/domain/sheets/odometerRate";
import { convert } from "@/lib/domain/units/convert";
import { distanceUnit } from "@/lib/domain/units/distance";
import { open } from "@/lib/gate/open";
import { FOLLOW_UP_STATES, FollowUpQuery } from "@/lib/schemas/followUps";
import { finish } from "./actions";

export default async function FollowUpsPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("bike.read", slug);
  const query = FollowUpQuery.parse(await searchParams);
  const { rows, next } = await listFollowUps(shop, query);
  const here = `/s/${slug}/follow-ups`;
  return (
    <>
      <PageHead
        of={shop.name}
        title="Follow-ups"
        sub="Asking how a bike runs, and what is due by day or distance."
        actions={FOLLOW_UP_STATES.filter((state) => state !== query.state).map((state) => (
          <LinkButton key={state} href={`${here}?state=${state}`}>
            Show {state}
          </LinkButton>
        ))}
      />
      {rows.length === 0 && (
        <Empty
          title={query.state === "due" ? "Nothing to follow up." : `None ${query.state}.`}
          text="A follow-up is put in the diary when a job's invoice is paid in full; how long after is set under Shop."
          action={<LinkButton href={`/s/${slug}/jobs`}>Jobs</LinkButton>}
        />
      )}
      <ul className="max-w-[860px]">
        {rows.map((row) => (
          <Row
            key={row.id}
            row={row}
            slug={slug}
            locale={shop.settings.locale}
            units={shop.settings.units}
            may={shop.can("followUp.write")}
            mayOpen={shop.can("job.write")}
          />
        ))}
      </ul>
      {next !== null && (
        <LinkButton href={`${here}?state=${query.state}&after=${next}`} className="mt-4">
          Later ones
        </LinkButton>
      )}
    </>
  );
}

interface RowProps {
  row: FollowUpLine;
  slug: string;
  locale: string;
  units: string;
  may: boolean;
  mayOpen: boolean;
}

function Row({ row, slug, locale, units, may, mayOpen }: RowProps) {
  const reach = [row.customer.phone, row.customer.email].filter(Boolean).join(", ");
  return (
    <li
      id={`follow-up-${row.id}`}
      className="flex flex-wrap items-center justify-between gap-x-6 gap-y-2 border-hair border-b py-3"
    >
      <div className="min-w-0">
        <p>
          <Link
            href={`/s/${slug}/bikes/${row.bike.id}`}
            className="font-semibold underline decoration-hair underline-offset-4"
          >
            {row.bike.name}
            {row.bike.plate && `, ${row.bike.plate}`}
          </Link>
          , {row.customer.name}
          {reach && <span className="text-soft">, {reach}</span>}
        </p>
        <p>{row.what}</p>
        <p className="text-[15px] text-soft">
          {word(row)} by <DateText date={row.dueOn} locale={locale} />
          {row.dueKm !== null && <> or {distanceText(row.dueKm, units, locale)}</>}
          {row.kmWhy && <>, {row.kmWhy}</>}
          {row.bike.odometerKm !== null && (
            <> (last seen at {distanceText(row.bike.odometerKm, units, locale)})</>
          )}
          {row.outcome && <>: {row.outcome}</>}
        </p>
        {row.estimate && <Estimate estimate={row.estimate} locale={locale} units={units} />}
        {row.jobId !== null && (
          <p className="flex flex-wrap gap-x-4 text-[15px]">
            <Link href={`/s/${slug}/jobs/${row.jobId}`} className={LINK}>
              The job it comes from
            </Link>
            {mayOpen && (
              <Link href={`/s/${slug}/jobs/new?bike=${row.bike.id}&of=${row.jobId}`} className={LINK}>
                It comes back
              </Link>
            )}
          </p>
        )}
      </div>
      {may && row.state === "due" && (
        <Dialog trigger="Finish" title={row.what}>
          <Form
            action={finish}
            shop={slug}
            hidden={{ id: String(row.id), version: String(row.version) }}
            label="Finish the follow-up"
          >
            <TextArea
              name="outcome"
              label="How it runs, or why this is dropped"
              rows={3}
              maxLength={400}
              required
            />
            <ChoiceField
              name="state"
              label="Then it is"
              initial="done"
              options={[
                { value: "done", label: "done" },
                { value: "dropped", label: "dropped" },
              ]}
            />
            <SubmitButton>Save</SubmitButton>
          </Form>
        </Dialog>
      )}
    </li>
  );
}

const LINK =
  "inline-flex min-h-6 items-center text-brass underline underline-offset-4 pointer-coarse:min-h-12";

interface EstimateProps {
  estimate: NonNullable<FollowUpLine["estimate"]>;
  locale: string;
  units: string;
}

/** By when the distance is probably reached: how it is reckoned opens. */
function Estimate({ estimate, locale, units }: EstimateProps) {
  const { on, early, late, readings } = estimate;
  const day = (at: string | null) => (at === null ? "later than in ten years" : dateText(at, locale));
  return (
    <p className="text-[15px] text-soft">
      The distance probably comes{" "}
      <Opens
        name="When the distance comes"
        because={[
          {
            fact: `${figureText(convert(estimate.kmPerDay, "km", distanceUnit(units)), locale, 1)} ${distanceUnit(units)} a day from ${readings} readings of this bike`,
            from: RATE_METHOD,
            effect: `now about ${distanceText(estimate.km, units, locale)}`,
          },
        ]}
      >
        {day(on)}
      </Opens>
      , between {day(early)} and {day(late)}.
    </p>
  );
}

function word(row: FollowUpLine) {
  if (row.state !== "due") return <State shape={row.state === "done" ? "filled" : "dash"}>{row.state}</State>;
  if (!row.dueNow) return <State shape="circle">due</State>;
  return (
    <State shape="triangle" tone="brass">
      {row.why === "day"
        ? "due now,"
        : row.why === "distance"
          ? "due now, by distance,"
          : "due now, by the estimate,"}
    </State>
  );
}
