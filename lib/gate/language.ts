import { LANGUAGES } from "@/lib/words/language";

const DEFAULT = "en";

/** The first language of the browser's that we speak, for a page that belongs to no shop; RFC 9110, 12.5.4, weights left aside. */
export function askedLocale(headers: Pick<Headers, "get">): string {
  const asked = (headers.get("accept-language") ?? "").slice(0, 200).toLowerCase();
  for (const part of asked.split(",")) {
    const tag = part.split(";")[0]?.trim().split("-")[0] ?? "";
    if (tag === "no" || tag === "nn") return "nb";
    const known = LANGUAGES.find((language) => language === tag);
    if (known) return known;
  }
  return DEFAULT;
}
