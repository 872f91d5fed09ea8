"use client";
import { useSyncExternalStore } from "react";
import { SelectField } from "@/app/_ui/SelectField";

const never = () => () => {};

/** Time zones by name. The browser knows them all: the page brings the shop's own alone. */
export function ZoneField({ own }: { own: string }) {
  const live = useSyncExternalStore(
    never,
    () => true,
    () => false,
  );
  const zones = live ? new Set([...Intl.supportedValuesOf("timeZone"), own]) : [own];
  const options = [...zones].sort().map((zone) => ({ value: zone, label: zone.replaceAll("_", " ") }));
  return <SelectField name="zone" label="Time zone" initial={own} options={options} />;
}
