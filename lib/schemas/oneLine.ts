import { z } from "zod";

/** No control character, no line or paragraph separator (Unicode categories Cc, Zl and Zp). */
const ONE_LINE = /^[^\p{Cc}\p{Zl}\p{Zp}]*$/u;

/**
 * Text that stands on one line: names, titles, codes, reasons. It goes into letters' headers, calendars, labels and file
 * names, where a line's end would begin something else.
 */
export const oneLine = (most: number, tooLong = `At most ${most} characters.`) =>
  z.string().trim().max(most, tooLong).regex(ONE_LINE, "Keep this on one line, without tabs.");
