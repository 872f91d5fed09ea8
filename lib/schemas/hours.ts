import { z } from "zod";

const day = z.iso.date().optional().catch(undefined);

/** The week of which day is looked at; this one where none is named. */
export const HoursQuery = z.object({ day });

/** The weeks of a file for wages, by their first and last local day. */
export const HoursFileQuery = z.object({ from: day, to: day });
