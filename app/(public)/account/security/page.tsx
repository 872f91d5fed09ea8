import type { Metadata } from "next";
import { EventList } from "@/app/_ui/EventList";
import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { eventsOfPerson } from "@/lib/data/people/events";
import { askedId } from "@/lib/gate/ids";
import { person } from "@/lib/gate/personAction";
import { personClock } from "@/lib/gate/personClock";

export const metadata: Metadata = { title: "What happened to your sign-in" };

export default async function OwnSecurity({ searchParams }: { searchParams: Promise<{ before?: string }> }) {
  const session = await person("/account/security");
  const { before } = await searchParams;
  const page = await eventsOfPerson(session.personId, askedId(before));
  return (
    <div className="mx-auto max-w-[640px]">
      <PageHead title="What happened to your sign-in" sub="Newest first. It only grows." />
      <EventList page={page} {...(await personClock(session.personId))} here="/account/security" />
      <p className="mt-6">
        If something here was not you, change your password: that signs out every other device.{" "}
        <Link href="/account">Back to your page</Link>
      </p>
    </div>
  );
}
