import type { Metadata } from "next";
import { Form } from "@/app/_ui/Form";
import { Instant } from "@/app/_ui/Instant";
import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { ownSessions } from "@/lib/data/people/ownSessions";
import { person } from "@/lib/gate/personAction";
import { personClock } from "@/lib/gate/personClock";
import { idleHours } from "@/lib/gate/session";
import { endDevice, endOtherDevices } from "../actions";

export const metadata: Metadata = { title: "Signed-in devices" };

export default async function Devices() {
  const session = await person("/account/devices");
  const sessions = await ownSessions(session.personId, session.sessionId, new Date(), idleHours());
  const clock = await personClock(session.personId);
  const at = (when: Date) => <Instant at={when.toISOString()} {...clock} />;
  return (
    <div className="mx-auto max-w-[640px]">
      <PageHead title="Signed-in devices" sub={clock.zone} />
      <Section title={sessions.length === 1 ? "One device" : `${sessions.length} devices`}>
        <ul>
          {sessions.map((one) => (
            <li
              key={one.mark}
              className="flex flex-wrap items-center justify-between gap-x-6 gap-y-2 border-hair border-b py-3"
            >
              <div className="min-w-0">
                <strong>{one.device}</strong>{" "}
                {one.isThis && (
                  <State shape="filled" tone="pine">
                    this one
                  </State>
                )}
                <div className="text-[14px] text-soft">
                  Signed in {at(one.createdAt)}
                  {one.address && ` from ${one.address}`}; last used {at(one.lastSeenAt)}
                </div>
              </div>
              {!one.isThis && (
                <Form action={endDevice} hidden={{ mark: one.mark }} label={`Sign out ${one.device}`}>
                  <SubmitButton tone="second">Sign it out</SubmitButton>
                </Form>
              )}
            </li>
          ))}
        </ul>
      </Section>
      {sessions.length > 1 && (
        <Form action={endOtherDevices} label="Sign out everywhere else">
          <SubmitButton tone="second">Sign out everywhere else</SubmitButton>
        </Form>
      )}
      <p className="mt-6">
        A device that you do not know: sign it out and change your password.{" "}
        <Link href="/account">Back to your page</Link>
      </p>
    </div>
  );
}
