import { randomInt } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { configuration } from "@/lib/configuration/configuration";
import { dataFolder } from "@/lib/db/places";

const WORDS = [
  "bowl",
  "brass",
  "choke",
  "float",
  "gasket",
  "idle",
  "jet",
  "lambda",
  "needle",
  "pilot",
  "slide",
  "spring",
  "throttle",
  "venturi",
];

const file = () => join(dataFolder(), "demo-sign-ins.txt");

/** The demo people's shared password: DEMO_PASSWORD, or made once and kept beside the data. */
export function demoPassword(): string {
  const given = configuration().DEMO_PASSWORD;
  if (given) return given;
  if (!existsSync(file())) {
    const words = Array.from({ length: 3 }, () => WORDS[randomInt(WORDS.length)]);
    writeFileSync(file(), `${words.join("-")}-${randomInt(1000, 9999)}`, { mode: 0o600 });
  }
  return readFileSync(file(), "utf8").trim();
}

export const DEMO_PEOPLE = {
  saltpanOwner: { email: "maren@saltpan.example", name: "Maren Tolliver" },
  saltpanTuner: { email: "jory@saltpan.example", name: "Jory Quill" },
  saltpanDesk: { email: "petra@saltpan.example", name: "Petra Voss" },
  saltpanBooks: { email: "anselm@saltpan.example", name: "Anselm Pike" },
  fjellrevOwner: { email: "sunniva@fjellrev.example", name: "Sunniva Rauk" },
} as const;

/** Lines for whoever started the server; none once the demo people are gone. */
export function signInLines(): string[] {
  return [
    `Demo sign-ins   ${DEMO_PEOPLE.saltpanOwner.email} (owner) · ${DEMO_PEOPLE.saltpanDesk.email} (desk)`,
    `                ${DEMO_PEOPLE.saltpanTuner.email} (tuner) · ${DEMO_PEOPLE.saltpanBooks.email} (books)`,
    `                ${DEMO_PEOPLE.fjellrevOwner.email} (owner of the second shop)`,
    `Demo password   ${demoPassword()}`,
  ];
}
