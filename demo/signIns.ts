import { randomInt } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { configuration } from "@/lib/configuration/configuration";
import { dataFolder } from "@/lib/db/folders";

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

const ROLES: Readonly<Record<string, string>> = {
  [DEMO_PEOPLE.saltpanOwner.email]: "owner",
  [DEMO_PEOPLE.saltpanDesk.email]: "desk",
  [DEMO_PEOPLE.saltpanTuner.email]: "tuner",
  [DEMO_PEOPLE.saltpanBooks.email]: "books",
  [DEMO_PEOPLE.fjellrevOwner.email]: "owner of the second shop",
};

export const DEMO_EMAILS = Object.keys(ROLES);

/** Passwords that the demo people may have, as far as is known here; none is made up. */
export function knownDemoPasswords(): string[] {
  const given = configuration().DEMO_PASSWORD;
  const kept = existsSync(file()) ? readFileSync(file(), "utf8").trim() : "";
  return [given, kept].filter((one): one is string => Boolean(one));
}

/** Lines for whoever started the server: who gets in, and with what. `works` holds the password of each that has one. */
export function signInLines(works: ReadonlyMap<string, string>): string[] {
  const [first] = works.values();
  if (first === undefined)
    return [
      "Demo people     are there; their password is not known here. A new one for the first of them:",
      `                npm run reset-link -- ${DEMO_PEOPLE.saltpanOwner.email}`,
    ];
  const people = DEMO_EMAILS.filter((email) => works.get(email) === first);
  return [
    ...people.map(
      (email, at) => `${at === 0 ? "Demo sign-ins  " : "               "} ${email} (${ROLES[email]})`,
    ),
    `Demo password   ${first}`,
  ];
}
