import { headers } from "next/headers";
import { askedLocale } from "@/lib/gate/language";
import { wordsIn } from "@/lib/words/words";
import { Plain } from "./Plain";

export default async function ClosedLink() {
  const say = wordsIn(askedLocale(await headers()));
  return <Plain title={say("links.unknown")}>{say("links.unknownText")}</Plain>;
}
