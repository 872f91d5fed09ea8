import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { JobView } from "@/lib/data/jobs/get";
import type { FlowsLike } from "@/lib/domain/tuning/sameThread";
import { fetchText } from "@/lib/schemas/bins";
import { quantityText } from "@/lib/schemas/quantity";
import { SameThread } from "../../_parts/SameThread";
import { partLeft, reserveReplacement } from "../actions";

interface JobPartsProps {
  job: JobView;
  base: string;
  slug: string;
  mayUse: boolean;
  /** Jets of other drawers with the same thread, by the reservation that is short. */
  instead: Readonly<Record<string, readonly FlowsLike[]>>;
  locale: string;
}

/** Parts reserved for the job, used, and short. */
export function JobParts({ job, base, slug, mayUse, instead, locale }: JobPartsProps) {
  const open = ["inWork", "ride"].includes(job.state);
  if (job.reservations.length === 0) return null;
  const stepOf = new Map(job.steps.map((step) => [step.id, step]));
  return (
    <Section title="Parts">
      <ul>
        {job.reservations.map((one) => {
          const { part } = one;
          const step = one.stepId === null ? undefined : stepOf.get(one.stepId);
          return (
            <li
              key={one.id}
              className="grid grid-cols-[minmax(0,1fr)_auto] gap-x-4 border-hair border-b py-2"
            >
              <Link href={`${base}/stock/${part.id}`} className="underline-offset-4 hover:underline">
                {part.name} <span className="font-mono text-soft">{part.code}</span>
              </Link>
              <Standing one={one} />
              <span className="text-[14px] text-soft">
                {quantityText(one.wantedMilli, part.unit)} wanted
                {one.reservedMilli > 0 && where(part)}
                {step && ` for step ${step.position}, ${step.name}`}
                {one.shortMilli > 0 &&
                  part.onOrderMilli > 0 &&
                  ` · ${quantityText(part.onOrderMilli, part.unit)} on order`}
                {one.reservedBy.length > 0 &&
                  ` · ${one.reservedBy.map((held) => `job ${held.jobNumber} has ${quantityText(held.reservedMilli, part.unit)}`).join(", ")}`}
                {one.unusedWhy && ` · ${one.unusedWhy}`}
                <SameThread jets={instead[one.id]} slug={slug} locale={locale} />
              </span>
              {one.replacement && (
                <TakeReplacement
                  one={one}
                  code={one.replacement.code}
                  jobId={job.id}
                  slug={slug}
                  may={mayUse}
                />
              )}
              {open && mayUse && one.state === "held" && step?.state !== "todo" && (
                <AccountFor one={one} jobId={job.id} slug={slug} />
              )}
            </li>
          );
        })}
      </ul>
    </Section>
  );
}

const where = (part: JobView["reservations"][number]["part"]) => {
  const text = fetchText(part);
  return text && ` · ${text}`;
};

/** What is missing of a part that is made no more, from the one that took its place. */
function TakeReplacement({
  one,
  code,
  jobId,
  slug,
  may,
}: {
  one: JobView["reservations"][number];
  code: string;
  jobId: number;
  slug: string;
  may: boolean;
}) {
  const hidden = { jobId: String(jobId), reservationId: String(one.id) };
  return (
    <div className="col-span-2 flex flex-wrap items-center gap-x-3 text-[14px]">
      Made no more: <span className="font-mono">{code}</span> takes its place.
      {may && (
        <Form
          action={reserveReplacement}
          shop={slug}
          hidden={hidden}
          label={`${code} in place of ${one.part.code}`}
        >
          <SubmitButton tone="second">
            {`Reserve ${quantityText(one.shortMilli, one.part.unit)} of ${code}`}
          </SubmitButton>
        </Form>
      )}
    </div>
  );
}

/** A part reserved for the job that no step asks for any more: used after all, or not, and why. */
function AccountFor({
  one,
  jobId,
  slug,
}: {
  one: JobView["reservations"][number];
  jobId: number;
  slug: string;
}) {
  const hidden = { jobId: String(jobId), reservationId: String(one.id) };
  return (
    <Form
      action={partLeft}
      shop={slug}
      hidden={hidden}
      label={`Account for ${one.part.code}`}
      className="col-span-2 flex flex-wrap items-end gap-2.5"
    >
      <TextField name="why" label="If not used, why" maxLength={300} />
      <SubmitButton tone="second" name="used" value="not">
        Not used
      </SubmitButton>
      {one.reservedMilli > 0 && (
        <SubmitButton tone="second" name="used" value="used">
          {`Used ${quantityText(one.reservedMilli, one.part.unit)}`}
        </SubmitButton>
      )}
    </Form>
  );
}

function Standing({ one }: { one: JobView["reservations"][number] }) {
  const { unit } = one.part;
  if (one.state === "held" && one.shortMilli > 0)
    return (
      <State shape="diamond" tone="oxide">
        short of {quantityText(one.shortMilli, unit)}
      </State>
    );
  if (one.reservedMilli > 0)
    return (
      <State shape="square" tone="brass">
        {quantityText(one.reservedMilli, unit)} reserved
      </State>
    );
  if (one.usedMilli === 0) return <State shape="dash">not used</State>;
  return <State shape="filled">{quantityText(one.usedMilli, unit)} used</State>;
}
