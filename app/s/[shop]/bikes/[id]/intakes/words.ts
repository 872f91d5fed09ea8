import type { Plug } from "@/lib/domain/tuning/firstLook";

export const PLUG_WORDS: Readonly<Record<Plug, string>> = {
  tan: "tan",
  white: "white, blistered",
  sooty: "dry and sooty",
  oily: "oily",
  wet: "wet with fuel",
};
