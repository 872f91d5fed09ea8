import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { OdometerField } from "@/app/_ui/OdometerField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { isFree } from "@/lib/data/jobs/closeFree";
import type { JobView } from "@/lib/data/jobs/get";
import { distanceUnit } from "@/lib/domain/units/distance";
import type { OpenShop } from "@/lib/gate/open";
import { arrive, arriveAtDesk } from "../actions";

/** What comes next for a job, for whoever looks: the page's main button. */
export function NextAct({ shop, job }: { shop: OpenShop; job: JobView }) {
  const base = `/s/${shop.slug}`;
  const here = `${base}/jobs/${job.id}`;
  const works = shop.can("job.work");
  const main = (href: string, words: string) => (
    <LinkButton tone="main" href={href}>
      {words}
    </LinkButton>
  );
  if (job.state === "waiting" || job.state === "booked") {
    if (job.arrivedAt) return works ? main(`${here}/card`, "Start work") : null;
    const mayArrive = works || shop.can("job.write");
    const mayBook = job.state === "waiting" && shop.can("booking.write");
    return (
      <>
        {mayArrive && <Arrive shop={shop} job={job} main={!mayBook} />}
        {mayBook && main(`${base}/bookings/new?job=${job.id}`, "Book it in")}
      </>
    );
  }
  const more = job.state === "ready" && job.nextKind !== null;
  if (job.state === "inWork" || job.state === "ride" || more) {
    if (!works) return null;
    const rides = job.steps.some((step) => step.kind === "ride");
    if (job.nextKind === null) return main(`${here}/finish`, rides ? "Record as left" : "Finish the job");
    return job.nextKind === "ride"
      ? main(`${here}/ride`, "Test ride")
      : main(`${here}/card`, "Open the card");
  }
  if (job.state === "ready")
    return (
      <>
        <LinkButton href={`${here}/handover`}>Handover sheet</LinkButton>
        {shop.can("invoice.write") &&
          !isFree(job.agreement) &&
          main(`${base}/invoices/new?job=${job.id}`, "Invoice")}
      </>
    );
  const invoice = job.invoices.at(-1);
  if (invoice && shop.can("invoice.read")) return main(`${base}/invoices/${invoice.id}`, "Open the invoice");
  return null;
}

function Arrive({ shop, job, main }: { shop: OpenShop; job: JobView; main: boolean }) {
  return (
    <Dialog
      trigger="The bike is here"
      triggerTone={main ? "main" : "second"}
      title={`Job ${job.number} arrives`}
    >
      <Form
        action={shop.can("job.write") ? arriveAtDesk : arrive}
        shop={shop.slug}
        hidden={{ jobId: String(job.id), version: String(job.version) }}
      >
        <OdometerField
          label="Odometer"
          unit={distanceUnit(shop.settings.units)}
          hint="Leave it blank if it cannot be read."
        />
        <SubmitButton>Record the arrival</SubmitButton>
      </Form>
      {shop.can("intake.write") && (
        <p className="mt-3">
          <LinkButton tone="quiet" href={`/s/${shop.slug}/arrivals/new?job=${job.id}`}>
            With fuel, keys, damage and a signature
          </LinkButton>
        </p>
      )}
    </Dialog>
  );
}
