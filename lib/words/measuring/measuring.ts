import { languageOf } from "../language";
import { AROUND } from "./around";
import { CARBURETTOR } from "./carburettor";
import type { SpokenProcedure } from "./spoken";

/** Every measuring procedure in Bokmål, by its id. */
export const MEASURING_NB: Readonly<Record<string, SpokenProcedure>> = { ...CARBURETTOR, ...AROUND };

/** A procedure's words where a paper speaks another language than English; undefined where its own do. */
export const spokenProcedure = (id: string, locale: string): SpokenProcedure | undefined =>
  languageOf(locale) === "nb" ? MEASURING_NB[id] : undefined;
