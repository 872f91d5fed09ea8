import { Empty } from "@/app/_ui/Empty";
import { Instant } from "@/app/_ui/Instant";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import type { getRides } from "@/lib/data/rides/get";
import { CONDITION_WORDS, ENGINE_WORDS, SIGN_WORDS, THROTTLE_WORDS } from "../rideWords";

interface RideListProps {
  rides: NonNullable<Awaited<ReturnType<typeof getRides>>>["rides"];
  settings: { locale: string; zone: string };
}

const word = (words: Readonly<Record<string, string>>, key: string) => words[key] ?? key;

/** Every ride of the job with what was felt and what was changed after it. */
export function RideList({ rides, settings }: RideListProps) {
  return (
    <Section title="Rides of this job">
      {rides.length === 0 && (
        <Empty
          title="No ride is recorded yet."
          text="When the bike is closed up, ride it and write what you felt."
        />
      )}
      <ul className="max-w-3xl">
        {rides.map((ride) => {
          const accepted = ride.corrections.find((one) => one.acceptedAt !== null);
          return (
            <li key={ride.id} className="border-hair border-b py-3">
              <p className="flex flex-wrap justify-between gap-x-4">
                <Instant at={ride.at.toISOString()} {...settings} />
                <State shape={ride.good ? "filled" : "triangle"} tone={ride.good ? "pine" : "brass"}>
                  {ride.good ? "all good" : "not good"}
                </State>
              </p>
              <ul className="mt-1">
                {ride.observations.map((one, at) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: observations keep their order
                  <li key={at}>
                    {word(THROTTLE_WORDS, one.throttle)} throttle, {word(CONDITION_WORDS, one.condition)},{" "}
                    {word(ENGINE_WORDS, one.engine)}: {word(SIGN_WORDS, one.sign)}
                    {one.note && <span className="text-soft"> · {one.note}</span>}
                  </li>
                ))}
              </ul>
              {ride.note && <p className="text-soft">{ride.note}</p>}
              {accepted && (
                <p className="mt-1">
                  Changed after it: {accepted.name}{" "}
                  <span className="font-mono">
                    {accepted.fromValue} → {accepted.toValue}
                  </span>{" "}
                  {accepted.unit}
                </p>
              )}
            </li>
          );
        })}
      </ul>
    </Section>
  );
}
